using System.Collections.Immutable;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>Attributes of runs under the client's own field names: those that the journal set, and those that the delivery table asks for and shots state.</summary>
public sealed class ClientFields(AsBuiltRecord record)
{
    private readonly Dictionary<string, (string Attribute, AttributeColumn Values)[]> asked = new(StringComparer.Ordinal);

    /// <summary>Field and value, by field.</summary>
    public ImmutableSortedDictionary<string, string> Of(Run run)
    {
        var delivery = record.Inputs.Delivery;
        var fields = ImmutableSortedDictionary.CreateBuilder<string, string>(StringComparer.Ordinal);
        foreach (var (attribute, values) in Asked(run.Code))
            if (values.Of(run) is { } value) fields[delivery.FieldOf(run.Code, attribute)] = value;
        foreach (var (attribute, value) in record.Runs.AttributesOf(run.Number)) fields[delivery.FieldOf(run.Code, attribute)] = value;
        return fields.ToImmutable();
    }

    /// <summary>As <c>field=value</c>, parted by semicolons.</summary>
    public string TextOf(Run run) => string.Join("; ", Of(run).Select(field => $"{field.Key}={field.Value}"));

    private (string Attribute, AttributeColumn Values)[] Asked(string code)
    {
        if (!asked.TryGetValue(code, out var known))
            asked[code] = known = [.. record.Inputs.Delivery.AttributesOf(code).Select(attribute => (attribute, new AttributeColumn(record, attribute)))];
        return known;
    }
}
