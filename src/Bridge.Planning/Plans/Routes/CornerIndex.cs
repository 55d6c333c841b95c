using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Finds stops by the cells that work on them may start with.</summary>
internal sealed class CornerIndex
{
    private readonly Dictionary<Cell, int> _firstAt = []; // the first entry of each cell
    private readonly List<(int Stop, int Next)> _entries = [];

    /// <summary>Files each stop under its cells.</summary>
    public CornerIndex(IReadOnlyList<StopChoice[]> stops)
    {
        for (var stop = 0; stop < stops.Count; stop++)
            foreach (var cell in stops[stop].Select(choice => choice.Stroke.First).Distinct())
            {
                _entries.Add((stop, _firstAt.GetValueOrDefault(cell, -1)));
                _firstAt[cell] = _entries.Count - 1;
            }
    }

    /// <summary>Stops with a cell so many cells away, along the axis on which it is further; one may come several times.</summary>
    public IEnumerable<int> Ring(Cell around, int reach)
    {
        for (var dy = -reach; dy <= reach; dy++)
            for (var dx = -reach; dx <= reach; dx += Math.Abs(dy) == reach ? 1 : Math.Max(1, 2 * reach))
            {
                var entry = _firstAt.GetValueOrDefault(new Cell(around.X + dx, around.Y + dy), -1);
                for (; entry >= 0; entry = _entries[entry].Next)
                    yield return _entries[entry].Stop;
            }
    }
}

/// <summary>One directed way to work a stop. The ways of a stop come in pairs, one turned round the other.</summary>
/// <param name="Stroke">From where to where.</param>
/// <param name="Seconds">Motion at work, as far as it differs between the ways.</param>
internal readonly record struct StopChoice(Stroke Stroke, float Seconds)
{
    /// <summary>All ways to work a block.</summary>
    public static StopChoice[] Of(Block block, Head head, IdleTimes times) =>
    [
        .. block.Strokes().SelectMany(stroke => new[] { stroke, stroke.Turned }.Select(way => new StopChoice(way, times.Of(block, way, head)))),
    ];
}
