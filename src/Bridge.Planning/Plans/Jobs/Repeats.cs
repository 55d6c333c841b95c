using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>
/// Finds which parts are best done by `again`: for every place in the sequence the fewest records up to there, by dynamic
/// programming over all repeats that end there. A place may be reached with the rise to the next layer still due or done.
/// </summary>
internal sealed class Repeats
{
    private const int MostParts = 256; // that are repeated together

    private readonly IReadOnlyList<Part> _parts;
    private readonly RecordWidth _width;
    private readonly int _layers;
    private readonly long[] _recordsUpTo;
    private readonly Place[] _due;
    private readonly Place[] _risen;

    private Repeats(IReadOnlyList<Part> parts, RecordWidth width, int layers)
    {
        (_parts, _width, _layers) = (parts, width, layers);
        _recordsUpTo = new long[parts.Count + 1];
        for (var part = 0; part < parts.Count; part++)
            _recordsUpTo[part + 1] = _recordsUpTo[part] + parts[part].Records;
        _due = Enumerable.Repeat(Place.Unreached, parts.Count + 1).ToArray();
        _risen = Enumerable.Repeat(Place.Unreached, parts.Count + 1).ToArray();
        _risen[0] = new Place(0, default, false);
    }

    /// <summary>The stretches of the shortest job that does all parts in order, on a machine of so many layers.</summary>
    public static List<Stretch> Find(IReadOnlyList<Part> parts, RecordWidth width, int layers)
    {
        var repeats = new Repeats(parts, width, layers);
        var likeness = repeats.Likeness();
        for (var part = 0; part < parts.Count; part++)
        {
            repeats.GoOn(part);
            for (var count = 1; count <= likeness.Length; count++)
                repeats.Repeat(part, count, 1 + likeness[count - 1][part] / count);
        }
        return repeats.Stretches();
    }

    // For each number of parts and each part: how many from there on are like the one that number further.
    private int[][] Likeness()
    {
        var likeness = new int[Math.Min(MostParts, _parts.Count / 2)][];
        for (var count = 1; count <= likeness.Length; count++)
        {
            var alike = likeness[count - 1] = new int[_parts.Count + 1];
            for (var part = _parts.Count - count - 1; part >= 0; part--)
                alike[part] = _parts[part].IsLike(_parts[part + count]) ? alike[part + 1] + 1 : 0;
        }
        return likeness;
    }

    private void GoOn(int part)
    {
        Reach(_due, part + 1, _due[part].Records + _parts[part].Records, new Stretch(part, 1, 1, false), fromRisen: false);
        Reach(_due, part + 1, _risen[part].Records + _parts[part].Blocks.Count, new Stretch(part, 1, 1, false), fromRisen: true);
    }

    private void Repeat(int part, int count, int mostTimes)
    {
        if (mostTimes < 2)
            return;
        var records = _recordsUpTo[part + count] - _recordsUpTo[part];
        if (records + 1 > _width.LargestPair)
            return;
        for (var times = 2; times <= Math.Min(mostTimes, _width.LargestPair); times++)
        {
            var end = part + count * times;
            Reach(_due, end, _due[part].Records + records + 1, new Stretch(part, count, times, false), fromRisen: false);
            if (LayerAt(end) is { } layer && layer < _layers && LayerAt(part + count) is not null)
                Reach(_risen, end, _risen[part].Records + records + 2, new Stretch(part, count, times, true), fromRisen: true);
        }
    }

    // The layer that starts at a part; null in the midst of one.
    private int? LayerAt(int part) => part == _parts.Count ? _parts[^1].Layer + 1 : _parts[part].StartsLayer ? _parts[part].Layer : null;

    private static void Reach(Place[] places, int end, long records, Stretch by, bool fromRisen)
    {
        if (records < places[end].Records)
            places[end] = new Place(records, by, fromRisen);
    }

    private List<Stretch> Stretches()
    {
        List<Stretch> stretches = [];
        var isRisen = _risen[^1].Records < _due[^1].Records;
        for (var end = _parts.Count; end > 0;)
        {
            var place = isRisen ? _risen[end] : _due[end];
            stretches.Add(place.By);
            (end, isRisen) = (place.By.First, place.FromRisen);
        }
        stretches.Reverse();
        return stretches;
    }

    // The fewest records up to a part, and how they end.
    private readonly record struct Place(long Records, Stretch By, bool FromRisen)
    {
        public static Place Unreached { get; } = new(int.MaxValue, default, false);
    }
}
