namespace Aslaid.Cli;

/// <summary>An example of each correction.</summary>
internal static class HelpOfCorrections
{
    /// <summary>The example of a kind; a kind without one is a mistake that the first start shows.</summary>
    public static string Of(string kind) => kind switch
    {
        "recode" => Write("recode 145 146 --code KERB-FACE --run KF-2", "code not changed"),
        "set-aside" => Write("set-aside 301@North 305..309", "pole slipped"),
        "restore" => Write("restore 301@North", "it was right"),
        "path" => Write("path IS-1 \"201 ~202 203 204 ~205 206 201\"", "ring closed"),
        "end" => Write("end WB-9 --which end --onto 212@North", "the branch meets the main there"),
        "pole" => Write("pole 101..120 --entered 2.000 --true 1.800", "pole shortened, controller not told"),
        "attribute" => Write("attribute WM-1 material PE", "read from the pipe"),
        "declare" => Write("declare WM-1 --status new --flow along --start cap --end continues", "seen in the trench"),
        "join" => Write("join WM-1@South --into WM-1@North", "both crews shot one main and met at the valve"),
        "split" => Write("split WM-1 --at 140 --label WM-1A", "reducer at 140"),
        "label-again" => Write("label-again WM-1 --batch 3 --as supersedes", "relaid below the drain"),
        "values" => Write("values --batch 3 --count later", "pole height put right in the instrument before the export"),
        "tape" => Write("tape 312 --id 312-INV --code STORM-DRAIN --up -0.450", "invert out of reach of the pole"),
        "offset" => Write("offset 101 102 --id C1 --code LAMP-COLUMN --along 2.00 --right 0.35", "pole cannot stand there"),
        "two-distances" => Write("two-distances 101 102 --id V7 --code WATER-VALVE --first 3.20 --second 4.10 --side right", "under the excavator"),
        "line-with-line" => Write("line-with-line 201 202 211 212 --id K9 --code KERB-FACE", "corner behind the fence"),
        "bearing" => Write("bearing 101 --id B1 --code GULLY --bearing 84.5 --distance 2.30", "below the hoarding"),
        "tangents" => Write("tangents KF-2 --from-shot 201 --to-shot 240", "laid as straight, arc, straight"),
        "role" => Write("role \"A. Person\" engineer", "appointed for the section"),
        "connection" => Write("connection 231 A --invert 3.412 --size 0.300 --clock 6 --of-run SD-1 --which end", "read in the chamber"),
        "node" => Write("node SD-2 --which end --to 231", "enters the chamber below the cover"),
        "hole" => Write("hole PIT-1 --in IS-1", "tree pit left open"),
        "relation" => Write("relation PC-4 --in PD-1", "drawn into the duct"),
        "accept" => Write("accept F-3K7Q2MX", "two fittings, both real"),
        "apply" => Write("apply F-3K7Q2MX", "code not changed"),
        "release" => Write("release WM-1 --from 0 --to 42.5", "checked against the open trench"),
        "cover" => Write("cover WM-1 --from 0 --to 42.5", "backfilled this morning"),
        "built" => Write("built WM-1 --from 0 --to 80", "pipe laid to the tee"),
        "withdraw" => Write("withdraw 7", "wrong shot"),
        _ => throw new ArgumentException($"The correction '{kind}' has no example.", nameof(kind)),
    };

    private static string Write(string what, string why) => $"aslaid correct site.gpkg {what} --by \"A. Person\" --why \"{why}\"";
}
