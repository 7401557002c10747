using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>A shot taken on a point of known position.</summary>
/// <param name="Row">Row of the shot.</param>
/// <param name="Point">Place of the point in the control list.</param>
/// <param name="East">Metres, shot minus known.</param>
/// <param name="North">Metres, shot minus known.</param>
/// <param name="Height">Metres, shot minus known; null where either height is missing.</param>
public readonly record struct CheckShot(int Row, int Point, double East, double North, double? Height)
{
    /// <summary>Misfit in plan, metres.</summary>
    public double Plan => double.Hypot(East, North);

    /// <summary>
    /// Check shots among the shots that count: of kind <c>control</c>, and the id is a control point's id, or a word of the
    /// note is. The note prevails, since ids of crews run on.
    /// </summary>
    public static ImmutableArray<CheckShot> Find(CurrentShots shots, ImmutableArray<ControlPoint> control)
    {
        var places = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var place = 0; place < control.Length; place++) places[control[place].Id] = place;
        var found = ImmutableArray.CreateBuilder<CheckShot>();
        for (var row = 0; row < shots.Count; row++)
        {
            if (shots.Place[row] < 0 || !shots.Used[row] || !shots.IsShot(row) || shots.Book.Entries[shots.Place[row]].Kind != CodeKind.Control) continue;
            if (PlaceOf(shots.Raw, row, places) is not { } at) continue;
            var (known, shot) = (control[at], shots.At(row));
            found.Add(new(row, at, shot.East - known.At.East, shot.North - known.At.North, shots.HeightOf(row) - known.Height));
        }

        return found.ToImmutable();
    }

    private static int? PlaceOf(ShotTable raw, int row, Dictionary<string, int> places)
    {
        var note = raw.Text("note", row) ?? "";
        if (places.TryGetValue(note.Trim(), out var whole)) return whole;
        foreach (var word in note.Split([' ', ',', ';', ':', '.'], StringSplitOptions.RemoveEmptyEntries))
            if (places.TryGetValue(word, out var named)) return named;
        return places.TryGetValue(raw.Id(row), out var byId) ? byId : null;
    }
}
