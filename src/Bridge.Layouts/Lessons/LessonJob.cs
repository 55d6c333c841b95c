using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>What some records do on the grid of lessons, from (0, 0) on layer 0 with head a.</summary>
internal sealed class LessonJob
{
    private readonly Dictionary<int, (int Tenths, int Holds)> _rests = [];

    public LessonJob(IReadOnlyList<Record> records)
    {
        var reader = new PassReader(Image.Of(Exercise.Width, [.. records, Record.End]), Exercise.Grid);
        while (reader.TryNext(out var pass))
            Add(pass);
        (Fault, End) = (reader.Fault, reader.Position);
    }

    /// <summary>The cells worked, in order; a cell worked twice is there twice.</summary>
    public List<(Cell Cell, int Layer, Head Head)> Worked { get; } = [];

    /// <summary>The hardest slope of its lines, in points of difficulty.</summary>
    public int Slopes { get; private set; }

    /// <summary>Where the job stands in the end.</summary>
    public Position End { get; }

    /// <summary>Tenths of a second that it waits.</summary>
    public int Tenths => _rests.Values.Sum(rest => rest.Tenths);

    /// <summary>What stops it; null where nothing does.</summary>
    public JobFault? Fault { get; }

    /// <summary>Whether it works a place twice, be it with two heads.</summary>
    public bool WorksTwice => Worked.Select(work => (work.Cell, work.Layer)).Distinct().Count() < Worked.Count;

    /// <summary>Whether another job waits as long and holds as often on each layer.</summary>
    public bool RestsAs(LessonJob other) => _rests.Count == other._rests.Count
        && _rests.All(rest => other._rests.TryGetValue(rest.Key, out var theirs) && theirs == rest.Value);

    private void Add(Pass pass)
    {
        foreach (var cell in pass.Work)
            Worked.Add((cell, pass.Entry.Layer, pass.Entry.Head));
        Slopes = Math.Max(Slopes, RecordDifficulty.Slope(pass.Record, pass.Entry.Cell));
        if (pass.Record.Verb != Verb.Wait)
            return;
        var (tenths, holds) = _rests.GetValueOrDefault(pass.Entry.Layer);
        _rests[pass.Entry.Layer] = pass.Record.Heading == 1 ? (tenths, holds + 1) : (tenths + pass.Record.PairPq(Exercise.Width), holds);
    }
}
