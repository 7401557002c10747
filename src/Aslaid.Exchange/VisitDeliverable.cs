using System.IO;
using System.Text;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>What is still to be shot, as text and as a table.</summary>
public sealed class VisitDeliverable : IDeliverable
{
    /// <inheritdoc/>
    public string Name => "next-visit";

    /// <inheritdoc/>
    public string What => "next visit: what only another visit can cure, in walking order";

    /// <inheritdoc/>
    public void Write(Handover handover, IDeliveryFolder folder)
    {
        var stops = NextVisit.Plan(handover.Record);
        var utf8 = new UTF8Encoding(false);
        File.WriteAllText(folder.PathOf("next-visit.txt", "next visit: what only another visit can cure, as sentences in walking order"), VisitText.Plain(stops, $"{handover.Project}, {handover.Stamp}"), utf8);
        File.WriteAllText(folder.PathOf("next-visit.csv", "next visit: the same places to set out, in walking order; CSV"), VisitText.Csv(stops), utf8);
    }
}
