using System.Buffers;
using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;

namespace Aslaid.Record;

/// <summary>
/// Journal entries as the UTF-8 bytes that are hashed and kept: one line of JSON, members in a fixed order, every number
/// that is not an integer as its 16 hexadecimal IEEE 754 digits (the decimal beside it is for people and is not read back).
/// </summary>
/// <remarks>Bytes are written once and never written anew to verify: a reader decodes them, the hash is over them as kept.</remarks>
public static class ChangeCodec
{
    private static readonly JsonWriterOptions Plain = new() { Indented = false, Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The bytes of an entry.</summary>
    public static byte[] Encode(JournalEntry entry)
    {
        var buffer = new ArrayBufferWriter<byte>(512);
        using (var json = new Utf8JsonWriter(buffer, Plain))
        {
            json.WriteStartObject();
            json.WriteNumber("position", entry.Position);
            json.WriteString("time", entry.Time.ToString("O", CultureInfo.InvariantCulture));
            json.WriteString("by", entry.By.Name);
            json.WriteString("by_proof", entry.By.Proof == ActorProof.SignedIn ? "signed-in" : "typed");
            json.WriteString("why", entry.Why);
            json.WriteString("kind", KindOf(entry.What));
            Write(json, entry.What);
            json.WriteEndObject();
        }

        return buffer.WrittenSpan.ToArray();
    }

    /// <summary>The stable name of a kind of change.</summary>
    public static string KindOf(Change change) => change switch
    {
        ProjectMade => "project-made",
        BatchTaken => "batch-taken",
        Adopted => "adopted",
        DesignAdopted => "design-adopted",
        DesignBuilt => "design-built",
        RulesAdopted => "rules-adopted",
        Recoded => "recoded",
        SetAside => "set-aside",
        Restored => "restored",
        PathSet => "path-set",
        EndTied => "end-tied",
        PoleHeightCorrected => "pole-height-corrected",
        AttributeSet => "attribute-set",
        FindingAccepted => "finding-accepted",
        LengthReleased => "length-released",
        LengthCovered => "length-covered",
        ValuesDecided => "values-decided",
        RunJoined => "run-joined",
        LabelDecided => "label-decided",
        RunSplit => "run-split",
        PointConstructed => "point-constructed",
        ConnectionSet => "connection-set",
        NodeTied => "node-tied",
        HoleDecided => "hole-decided",
        RelationSet => "relation-set",
        RoleGiven => "role-given",
        ClaimMade => "claim-made",
        Withdrawn => "withdrawn",
        _ => throw new ArgumentException($"A change of type {change.GetType().Name} has no name in the journal.", nameof(change)),
    };

    private static void Write(Utf8JsonWriter json, Change change)
    {
        switch (change)
        {
            case ProjectMade c:
                json.WriteString("name", c.Name);
                json.WriteNumber("format", c.Format);
                json.WriteNumber("rules", c.Rules);
                break;
            case BatchTaken c:
                json.WriteNumber("batch", c.Batch);
                json.WriteString("file", c.FileName);
                json.WriteString("file_sha256", c.FileSha256);
                json.WriteString("rows_sha256", c.RowsSha256);
                json.WriteNumber("rows", c.Rows);
                json.WriteString("crew", c.Crew);
                WriteNumber(json, "declared_u_plan_m", c.Declared.UPlan);
                WriteNumber(json, "declared_u_height_m", c.Declared.UHeight);
                break;
            case Adopted c:
                json.WriteString("table", EnumWords.Of(c.Table));
                json.WriteString("file", c.FileName);
                json.WriteString("sha256", c.Sha256);
                break;
            case DesignAdopted c:
                json.WriteString("file", c.FileName);
                json.WriteString("sha256", c.Sha256);
                WriteNumber(json, "unit_m", c.Unit);
                json.WriteString("surface", c.Surface);
                json.WriteString("surface_kind", EnumWords.Of(c.SurfaceKind));
                json.WriteString("surface_date", c.SurfaceDate?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
                WriteNumber(json, "surface_u_m", c.SurfaceU);
                break;
            case DesignBuilt c:
                json.WriteString("line", c.Line);
                WriteNumber(json, "from_m", c.From);
                WriteNumber(json, "to_m", c.To);
                break;
            case RulesAdopted c:
                json.WriteNumber("rules", c.Rules);
                break;
            case Recoded c:
                WriteShots(json, c.Shots);
                json.WriteString("code", c.Code);
                json.WriteString("run", c.Run);
                break;
            case SetAside c:
                WriteShots(json, c.Shots);
                break;
            case Restored c:
                WriteShots(json, c.Shots);
                break;
            case PathSet c:
                json.WriteString("run", c.Run);
                json.WriteString("code", c.Code);
                json.WriteStartArray("path");
                foreach (var step in c.Steps) json.WriteStringValue((step.Through ? "~" : "") + step.Shot);
                json.WriteEndArray();
                break;
            case EndTied c:
                json.WriteString("run", c.Run);
                json.WriteString("end", EnumWords.Of(c.End));
                json.WriteString("onto", c.Onto.ToString());
                json.WriteBoolean("instead", c.Instead);
                break;
            case PoleHeightCorrected c:
                WriteShots(json, c.Shots);
                WriteNumber(json, "entered_m", c.Entered);
                WriteNumber(json, "true_m", c.True);
                break;
            case AttributeSet c:
                json.WriteString("run", c.Run);
                json.WriteString("name", c.Name);
                json.WriteString("value", c.Value);
                break;
            case FindingAccepted c:
                json.WriteString("finding", c.Finding);
                json.WriteString("check", c.Check);
                json.WriteString("severity", EnumWords.Of(c.Severity));
                WriteNumber(json, "measured", c.Measured);
                WriteNumber(json, "allowed", c.Allowed);
                break;
            case LengthReleased c:
                json.WriteString("run", c.Run);
                WriteNumber(json, "from_m", c.From);
                WriteNumber(json, "to_m", c.To);
                json.WriteString("inputs_sha256", c.InputsSha256);
                json.WriteStartArray("vertices");
                foreach (var vertex in c.Vertices)
                {
                    json.WriteStartObject();
                    WriteNumber(json, "chainage_m", vertex.Chainage);
                    WriteNumber(json, "east_m", vertex.East);
                    WriteNumber(json, "north_m", vertex.North);
                    WriteNumber(json, "height_m", vertex.Height);
                    json.WriteEndObject();
                }

                json.WriteEndArray();
                break;
            case LengthCovered c:
                json.WriteString("run", c.Run);
                WriteNumber(json, "from_m", c.From);
                WriteNumber(json, "to_m", c.To);
                break;
            case ValuesDecided c:
                WriteShots(json, c.Shots);
                json.WriteBoolean("adopt", c.Adopt);
                break;
            case RunJoined c:
                json.WriteString("run", c.Run);
                json.WriteString("into", c.Into);
                break;
            case LabelDecided c:
                json.WriteString("run", c.Run);
                json.WriteNumber("batch", c.Batch);
                json.WriteString("as", EnumWords.Of(c.As));
                break;
            case RunSplit c:
                json.WriteString("run", c.Run);
                json.WriteString("at", c.At.ToString());
                json.WriteString("label", c.Label);
                break;
            case PointConstructed c:
                json.WriteString("id", c.Id);
                json.WriteString("code", c.Code);
                json.WriteString("run", c.Run);
                ConstructionCodec.Write(json, c.How);
                break;
            case ConnectionSet c:
                json.WriteString("node", c.Node.ToString());
                json.WriteString("name", c.Name);
                WriteNumber(json, "invert_m", c.Invert);
                WriteNumber(json, "size_m", c.Size);
                WriteNumber(json, "clock_h", c.Clock);
                json.WriteString("run", c.Run);
                json.WriteString("end", c.End is { } which ? EnumWords.Of(which) : null);
                break;
            case NodeTied c:
                json.WriteString("run", c.Run);
                json.WriteString("end", EnumWords.Of(c.End));
                json.WriteString("node", c.Node.ToString());
                break;
            case HoleDecided c:
                json.WriteString("run", c.Run);
                json.WriteString("in", c.In);
                json.WriteBoolean("hole", c.IsHole);
                break;
            case RelationSet c:
                json.WriteString("run", c.Run);
                json.WriteString("relation", EnumWords.Of(c.Relation));
                json.WriteString("of", c.Of);
                break;
            case RoleGiven c:
                json.WriteString("person", c.Person);
                json.WriteString("role", c.Role);
                break;
            case ClaimMade c:
                json.WriteString("period", c.Period);
                json.WriteNumber("upto", c.Upto);
                break;
            case Withdrawn c:
                json.WriteNumber("entry", c.Position);
                break;
        }
    }

    /// <summary>The entry that bytes stand for.</summary>
    /// <exception cref="FormatException">They are no entry of a kind known here; the message says what is wrong.</exception>
    public static JournalEntry Decode(ReadOnlySpan<byte> bytes)
    {
        try
        {
            var reader = new Utf8JsonReader(bytes);
            using var document = JsonDocument.ParseValue(ref reader);
            var json = document.RootElement;
            var by = new Actor(Text(json, "by"), Text(json, "by_proof") == "signed-in" ? ActorProof.SignedIn : ActorProof.Typed);
            var time = DateTimeOffset.ParseExact(Text(json, "time"), "O", CultureInfo.InvariantCulture, DateTimeStyles.RoundtripKind);
            return new(json.GetProperty("position").GetInt32(), time, by, Text(json, "why"), Read(json, Text(json, "kind")));
        }
        catch (Exception wrong) when (wrong is JsonException or KeyNotFoundException or InvalidOperationException)
        {
            throw new FormatException($"This is no journal entry: {wrong.Message} Found: {Encoding.UTF8.GetString(bytes[..Math.Min(bytes.Length, 200)])}", wrong);
        }
    }

    private static Change Read(JsonElement json, string kind) => kind switch
    {
        "project-made" => new ProjectMade(Text(json, "name"), json.GetProperty("format").GetInt32(), json.GetProperty("rules").GetInt32()),
        "batch-taken" => new BatchTaken(
            json.GetProperty("batch").GetInt32(), Text(json, "file"), Text(json, "file_sha256"), Text(json, "rows_sha256"),
            json.GetProperty("rows").GetInt32(), Maybe(json, "crew"),
            new(MaybeNumber(json, "declared_u_plan_m"), MaybeNumber(json, "declared_u_height_m"))),
        "adopted" => new Adopted(
            Text(json, "table") switch
            {
                "code-book" => Adoptable.CodeBook,
                "control" => Adoptable.Control,
                "settings" => Adoptable.Settings,
                "delivery" => Adoptable.Delivery,
                "sections" => Adoptable.Sections,
                "design-map" => Adoptable.DesignMap,
                "separation" => Adoptable.Separation,
                var other => throw new FormatException($"The journal adopts a table of unknown kind: {other}."),
            },
            Text(json, "file"), Text(json, "sha256")),
        "design-adopted" => new DesignAdopted(Text(json, "file"), Text(json, "sha256"), MaybeNumber(json, "unit_m"), Maybe(json, "surface"), Text(json, "surface_kind") switch
        {
            "designed" => SurfaceKind.Designed,
            "as-built" => SurfaceKind.AsBuilt,
            "existing" => SurfaceKind.Existing,
            "temporary" => SurfaceKind.Temporary,
            var other => throw new FormatException($"A journal entry names a surface '{other}'; designed, as-built, existing or temporary was expected."),
        },
            Maybe(json, "surface_date") is { } date ? DateOnly.TryParseExact(date, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : throw new FormatException($"A journal entry dates a surface '{date}'; a date such as 2026-03-10 was expected.") : null,
            MaybeNumber(json, "surface_u_m")),
        "design-built" => new DesignBuilt(Text(json, "line"), Number(json, "from_m"), Number(json, "to_m")),
        "rules-adopted" => new RulesAdopted(json.GetProperty("rules").GetInt32()),
        "recoded" => new Recoded(Shots(json), Text(json, "code"), Maybe(json, "run")),
        "set-aside" => new SetAside(Shots(json)),
        "restored" => new Restored(Shots(json)),
        "path-set" => new PathSet(Text(json, "run"), Maybe(json, "code"), [.. json.GetProperty("path").EnumerateArray().Select(Step)]),
        "end-tied" => new EndTied(
            Text(json, "run"), EndOf(Text(json, "end")), Key(Text(json, "onto")), json.GetProperty("instead").GetBoolean()),
        "pole-height-corrected" => new PoleHeightCorrected(Shots(json), Number(json, "entered_m"), Number(json, "true_m")),
        "attribute-set" => new AttributeSet(Text(json, "run"), Text(json, "name"), Text(json, "value")),
        "finding-accepted" => new FindingAccepted(Text(json, "finding"), Text(json, "check"), SeverityOf(Text(json, "severity")), MaybeNumber(json, "measured"), MaybeNumber(json, "allowed")),
        "length-released" => new LengthReleased(
            Text(json, "run"), Number(json, "from_m"), Number(json, "to_m"), Text(json, "inputs_sha256"),
            [.. json.GetProperty("vertices").EnumerateArray().Select(v => new ReleasedVertex(
                Number(v, "chainage_m"), Number(v, "east_m"), Number(v, "north_m"), MaybeNumber(v, "height_m")))]),
        "length-covered" => new LengthCovered(Text(json, "run"), Number(json, "from_m"), Number(json, "to_m")),
        "values-decided" => new ValuesDecided(Shots(json), json.GetProperty("adopt").GetBoolean()),
        "run-joined" => new RunJoined(Text(json, "run"), Text(json, "into")),
        "label-decided" => new LabelDecided(Text(json, "run"), json.GetProperty("batch").GetInt32(), Text(json, "as") switch
        {
            "continues" => LabelAgain.Continues,
            "supersedes" => LabelAgain.Supersedes,
            "replaces" => LabelAgain.Replaces,
            "checks" => LabelAgain.Checks,
            var other => throw new FormatException($"A journal entry says that a label comes again as '{other}'; continues, supersedes, replaces or checks was expected."),
        }),
        "run-split" => new RunSplit(Text(json, "run"), Key(Text(json, "at")), Text(json, "label")),
        "point-constructed" => new PointConstructed(Text(json, "id"), Text(json, "code"), Maybe(json, "run"), ConstructionCodec.Read(json)),
        "connection-set" => new ConnectionSet(
            Key(Text(json, "node")), Text(json, "name"), MaybeNumber(json, "invert_m"), MaybeNumber(json, "size_m"), MaybeNumber(json, "clock_h"),
            Maybe(json, "run"), Maybe(json, "end") is { } which ? EndOf(which) : null),
        "node-tied" => new NodeTied(Text(json, "run"), EndOf(Text(json, "end")), Key(Text(json, "node"))),
        "hole-decided" => new HoleDecided(Text(json, "run"), Text(json, "in"), json.GetProperty("hole").GetBoolean()),
        "relation-set" => new RelationSet(Text(json, "run"), Text(json, "relation") == "in" ? RunRelation.In : RunRelation.Bank, Text(json, "of")),
        "role-given" => new RoleGiven(Text(json, "person"), Text(json, "role")),
        "claim-made" => new ClaimMade(Text(json, "period"), json.GetProperty("upto").GetInt32()),
        "withdrawn" => new Withdrawn(json.GetProperty("entry").GetInt32()),
        _ => throw new FormatException($"The journal holds an entry of unknown kind '{kind}'. A newer program wrote it; open it with that."),
    };

    private static RunEnd EndOf(string word) => word switch
    {
        "start" => RunEnd.Start,
        "end" => RunEnd.End,
        _ => throw new FormatException($"A journal entry names the end '{word}'; start or end was expected."),
    };

    private static Severity SeverityOf(string word) => word switch
    {
        "stop" => Severity.Stop,
        "look" => Severity.Look,
        "note" => Severity.Note,
        _ => throw new FormatException($"A journal entry names the severity '{word}'; stop, look or note was expected."),
    };

    private static void WriteShots(Utf8JsonWriter json, ImmutableArray<ShotKey> shots)
    {
        json.WriteStartArray("shots");
        foreach (var shot in shots) json.WriteStringValue(shot.ToString());
        json.WriteEndArray();
    }

    internal static void WriteNumber(Utf8JsonWriter json, string name, double? value)
    {
        if (value is not { } number)
        {
            json.WriteNull(name);
            return;
        }

        if (!double.IsFinite(number)) throw new ArgumentException($"{name} is not finite and cannot be journalled.", nameof(value));
        if (number == 0) number = 0.0; // −0 becomes 0
        json.WriteString(name, string.Create(CultureInfo.InvariantCulture, $"{BitConverter.DoubleToInt64Bits(number):x16} {number:R}"));
    }

    internal static string Text(JsonElement json, string name) =>
        json.GetProperty(name).GetString() ?? throw new FormatException($"A journal entry lacks '{name}'.");

    private static string? Maybe(JsonElement json, string name) => json.GetProperty(name).GetString();

    internal static double Number(JsonElement json, string name) =>
        MaybeNumber(json, name) ?? throw new FormatException($"A journal entry lacks the number '{name}'.");

    internal static double? MaybeNumber(JsonElement json, string name)
    {
        if (json.GetProperty(name).GetString() is not { } text) return null;
        return text.Length >= 16 && long.TryParse(text.AsSpan(0, 16), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var bits)
            ? BitConverter.Int64BitsToDouble(bits)
            : throw new FormatException($"A journal entry holds '{text}' for '{name}'; 16 hexadecimal digits were expected.");
    }

    private static ImmutableArray<ShotKey> Shots(JsonElement json) =>
        [.. json.GetProperty("shots").EnumerateArray().Select(shot => Key(shot.GetString()!))];

    private static PathStep Step(JsonElement step)
    {
        var text = step.GetString()!;
        return text.StartsWith('~') ? new(Key(text[1..]), true) : new(Key(text), false);
    }

    internal static ShotKey Key(string text) =>
        ShotKey.TryParse(text, out var key) ? key : throw new FormatException($"A journal entry names the shot '{text}'; batch:line was expected.");
}
