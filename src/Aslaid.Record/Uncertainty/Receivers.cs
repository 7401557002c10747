namespace Aslaid.Record;

/// <summary>Which instrument took each shot: crew, instrument and method, as far as columns tell, over all batches.</summary>
internal sealed class Receivers
{
    private readonly List<(string? Crew, int Instrument, int Method, bool Records, bool Declared)> all = [];
    private readonly ShotTable raw;

    public Receivers(ShotTable raw)
    {
        this.raw = raw;
        Of = new int[raw.Count];
        var known = new Dictionary<(string Crew, int Instrument, int Method, bool Records, bool Declared), int>();
        var records = new Records(raw);
        var crews = raw.TextColumns.GetValueOrDefault("crew");
        var instruments = raw.TextColumns.GetValueOrDefault("instrument");
        var methods = raw.TextColumns.GetValueOrDefault("method");
        foreach (var batch in raw.Batches)
        {
            var (last, number) = ((Crew: -2, Instrument: -2, Method: -2, Records: false, Declared: false), -1);
            for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row++)
            {
                if (raw.Again[row] >= 0)
                {
                    Of[row] = Of[raw.Again[row]]; // a shot used again was taken once
                    continue;
                }

                var here = (Crew: crews?[row] ?? Words.None, Instrument: instruments?[row] ?? Words.None, Method: methods?[row] ?? Words.None, Records: records.Has(row),
                    Declared: batch.Declared.UPlan.HasValue && !(raw.UPlan[row] > 0));
                if (here != last)
                {
                    var crew = raw.Texts[here.Crew] ?? batch.Crew;
                    var key = (crew ?? "", here.Instrument, here.Method, here.Records, here.Declared);
                    if (!known.TryGetValue(key, out number))
                    {
                        known.Add(key, number = all.Count);
                        all.Add((crew, here.Instrument, here.Method, here.Records, here.Declared));
                    }

                    last = here;
                }

                Of[row] = number;
            }
        }
    }

    /// <summary>Number of the instrument of each row.</summary>
    public int[] Of { get; }

    public int Count => all.Count;

    /// <summary>Whether it is no instrument at all: what nobody measured.</summary>
    public bool IsRecords(int number) => all[number].Records;

    /// <summary>Whether a person declared its accuracy.</summary>
    public bool IsDeclared(int number) => all[number].Declared;

    public ReceiverAccuracy Named(int number, int checkShots, LearntFactor plan, LearntFactor height) =>
        new(all[number].Crew, raw.Texts[all[number].Instrument], raw.Texts[all[number].Method], checkShots, plan, height);
}
