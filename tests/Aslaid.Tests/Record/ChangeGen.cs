using Aslaid.Record;

namespace Aslaid.Tests;

/// <summary>Journal entries of every kind, with awkward words and numbers.</summary>
internal static class ChangeGen
{
    private static readonly Gen<string> Word = Gen.OneOf(
        Gen.String, Gen.Const("Größe \"x\" <b>&\u2028"), Gen.Const("=1+1"), Gen.Const("Schacht 7/ü@Nord"), Gen.Const("")).Where(IsText);

    private static readonly Gen<ShotKey> Key = Gen.Select(Gen.Int[1, 50], Gen.Int[2, 1_000_000], (batch, line) => new ShotKey(batch, line));
    private static readonly Gen<double> Number = Gen.OneOf(Gen.Double.Where(double.IsFinite), Gen.Const(-0.0), Gen.Const(0.1), Gen.Const(6_243_000.123), Gen.Const(double.Epsilon));
    private static readonly Gen<double?> MaybeNumber = Gen.OneOf(Number.Select(n => (double?)n), Gen.Const((double?)null));
    private static readonly Gen<string?> MaybeWord = Gen.OneOf(Word.Select(w => (string?)w), Gen.Const((string?)null));

    private static readonly Gen<Construction> How = Gen.Select(
        Gen.Enum<ConstructionKind>(), Key.Array[0, 5], Gen.Select(Number, Number, (value, u) => new Reading(value, u)).Array[0, 4], Gen.Int[-1, 1], Gen.Int[0, 9].Array[0, 3],
        (kind, parents, readings, side, parts) => new Construction(kind, [.. parents], [.. readings], side, [.. parts]));

    public static Gen<Change> Any { get; } = Gen.OneOf<Change>(
        Gen.Select(Word, Gen.Int[1, 9], Gen.Int[1, 9], (name, format, rules) => (Change)new ProjectMade(name, format, rules)),
        Gen.Select(Word, MaybeWord, MaybeNumber, Gen.Int[1, 9], (file, crew, u, rows) => (Change)new BatchTaken(1, file, "ab", "cd", rows, crew, new(u, null))),
        Gen.Select(Gen.Enum<Adoptable>(), Word, (table, file) => (Change)new Adopted(table, file, "ef")),
        Gen.Int[1, 9].Select(rules => (Change)new RulesAdopted(rules)),
        Gen.Select(Key.Array[0, 9], Word, MaybeWord, (shots, code, run) => (Change)new Recoded([.. shots], code, run)),
        Key.Array[0, 9].Select(shots => (Change)new SetAside([.. shots])),
        Key.Array[0, 9].Select(shots => (Change)new Restored([.. shots])),
        Gen.Select(Word, MaybeWord, Gen.Select(Key, Gen.Bool, (key, through) => new PathStep(key, through)).Array[0, 9], (run, code, steps) => (Change)new PathSet(run, code, [.. steps])),
        Gen.Select(Word, Gen.Enum<RunEnd>(), Key, Gen.Bool, (run, end, onto, instead) => (Change)new EndTied(run, end, onto, instead)),
        Gen.Select(Key.Array[0, 9], Number, Number, (shots, entered, right) => (Change)new PoleHeightCorrected([.. shots], entered, right)),
        Gen.Select(Word, Word, Word, (run, name, value) => (Change)new AttributeSet(run, name, value)),
        Gen.Select(Word, Word, Gen.Enum<Severity>(), MaybeNumber, MaybeNumber, (finding, check, severity, measured, allowed) => (Change)new FindingAccepted(finding, check, severity, measured, allowed)),
        Gen.Select(Word, Number, Number, Gen.Select(Number, Number, Number, MaybeNumber, (c, e, n, h) => new ReleasedVertex(c, e, n, h)).Array[0, 5], (run, from, to, vertices) => (Change)new LengthReleased(run, from, to, "01", [.. vertices])),
        Gen.Select(Word, Number, Number, (run, from, to) => (Change)new LengthCovered(run, from, to)),
        Gen.Select(Key.Array[0, 9], Gen.Bool, (shots, adopt) => (Change)new ValuesDecided([.. shots], adopt)),
        Gen.Select(Word, Word, (run, into) => (Change)new RunJoined(run, into)),
        Gen.Select(Word, Gen.Int[1, 99], Gen.Enum<LabelAgain>(), (run, batch, again) => (Change)new LabelDecided(run, batch, again)),
        Gen.Select(Word, Key, Word, (run, at, label) => (Change)new RunSplit(run, at, label)),
        Gen.Select(Word, Word, MaybeWord, How, (id, code, run, how) => (Change)new PointConstructed(id, code, run, how)),
        Gen.Select(Key, Word, MaybeNumber, MaybeNumber, MaybeWord, Gen.Enum<RunEnd>(), (node, name, invert, size, run, end) => (Change)new ConnectionSet(node, name, invert, size, null, run, run is null ? null : end)),
        Gen.Select(Word, Gen.Enum<RunEnd>(), Key, (run, end, node) => (Change)new NodeTied(run, end, node)),
        Gen.Select(Word, Word, Gen.Bool, (run, area, hole) => (Change)new HoleDecided(run, area, hole)),
        Gen.Select(Word, Gen.Enum<RunRelation>(), Word, (run, relation, of) => (Change)new RelationSet(run, relation, of)),
        Gen.Select(Word, Word, (person, role) => (Change)new RoleGiven(person, role)),
        Gen.Select(Word, Gen.Int[1, 99], (period, upto) => (Change)new ClaimMade(period, upto)),
        Gen.Int[1, 99].Select(position => (Change)new Withdrawn(position)));

    public static Gen<JournalEntry> Entry { get; } = Gen.Select(
        Gen.Int[1, 1_000_000], Gen.DateTimeOffset, Word, Gen.Enum<ActorProof>(), Word, Any,
        (position, time, name, proof, why, what) => new JournalEntry(position, time, new(name, proof), why, what));

    /// <summary>Half of a surrogate pair is no text.</summary>
    private static bool IsText(string text)
    {
        for (var i = 0; i < text.Length; i++)
        {
            if (!char.IsSurrogate(text[i])) continue;
            if (i + 1 >= text.Length || !char.IsSurrogatePair(text[i], text[i + 1])) return false;
            i++;
        }

        return true;
    }
}
