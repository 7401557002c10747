using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>Every value that a code limits: measured within the limits, and what is proven.</summary>
internal static class VerdictsTable
{
    public static void Write(AsBuiltRecord record, string path)
    {
        using var table = new Table(
            path,
            "requirement", "code", "run", "shot", "from_m", "to_m", "value", "u", "u95", "unit", "lower", "upper", "within", "verdict", "p_conforms");
        foreach (var judged in Judgements.Of(record))
        {
            var judgement = judged.Judgement;
            table.Text(judged.Requirement.Name).Text(judged.Code).Text(judged.Run?.Key).Text(TablesDeliverable.Ids(record, [judged.Shot]))
                .Number(judged.From, Fixed.Coordinate).Number(judged.To, Fixed.Coordinate)
                .Number(judgement.Value, Fixed.Figure).Number(judgement.U, Fixed.Figure).Number(judgement.U95, Fixed.Figure).Text(judged.Requirement.Unit)
                .Number(judgement.Limits.Lower, Fixed.Figure).Number(judgement.Limits.Upper, Fixed.Figure);
            if (judgement.Within is { } within) table.YesNo(within);
            else table.Text(null);
            table.Text(EnumWords.Of(judgement.Verdict)).Number(judgement.PConforms, Fixed.Figure).End();
        }
    }
}
