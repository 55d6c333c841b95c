using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>
/// Makes layers alike, or groups of layers, so that `again` does them: which stretches is chosen by dynamic programming over the layers, for a
/// price of a changed cell in records. Each price gives one proposal; the lower it is, the more cells change. Records are counted as fewest rectangles.
/// </summary>
internal sealed class Evening
{
    private const int LargestGroup = 4;
    private const int Prices = 48;
    private const double HighestPrice = 8; // records for a cell
    private const double PriceStep = 0.85;

    private readonly Shape _shape;
    private readonly byte[][] _layers; // up to the highest that works
    private readonly int[] _records;
    private readonly List<Alike>[] _alike; // by the layer after it

    private Evening(Shape shape, long mostCells, Effort effort)
    {
        _shape = shape;
        var count = 1 + Enumerable.Range(0, shape.Layers).Last(layer => !shape.IsEmpty(layer));
        var none = new byte[shape.Width * shape.Depth];
        _layers = [.. Enumerable.Range(0, count).Select(layer => shape.LayerCells(layer) is { IsEmpty: false } cells ? cells.ToArray() : none)];
        _records = Array.ConvertAll(_layers, RecordsOf);
        _alike = [.. Enumerable.Range(0, count + 1).Select(_ => new List<Alike>())];
        for (var first = 0; first < count && effort.IsLeft; first++)
            for (var group = 1; group <= Math.Min(LargestGroup, (count - first) / 2); group++)
                Collect(first, group, mostCells, effort);
    }

    /// <summary>Proposals of different edits, the one with the fewest changed cells first; each edit is a stretch of layers.</summary>
    /// <param name="shape">The shape, which works somewhere.</param>
    /// <param name="mostCells">Cells that a proposal may change.</param>
    /// <param name="effort">How much work may be done.</param>
    public static IEnumerable<List<Edit>> Proposals(Shape shape, long mostCells, Effort effort)
    {
        var evening = new Evening(shape, mostCells, effort);
        var (price, before) = (HighestPrice, 0L);
        for (var step = 0; step < Prices; step++, price *= PriceStep)
        {
            var edits = evening.At(price);
            var cells = edits.Sum(edit => (long)edit.Cells.Count);
            if (cells > mostCells)
                yield break;
            if (cells > before)
                yield return edits;
            before = Math.Max(before, cells);
        }
    }

    // Stretches from a layer on, longer and longer, until too many cells would change.
    private void Collect(int first, int group, long mostCells, Effort effort)
    {
        var votes = Enumerable.Range(0, group).Select(_ => new Votes(_layers[0].Length)).ToArray();
        for (var end = first; end < _layers.Length && effort.IsLeft; end++)
        {
            votes[(end - first) % group].Add(_layers[end]);
            effort.Spend(4 * _layers[0].Length);
            var cells = votes.Sum(vote => vote.Outvoted);
            if (cells > mostCells)
                return;
            var times = (end + 1 - first) / group;
            if (times < 2 || (end + 1 - first) % group != 0)
                continue;
            effort.Spend(50 * group * _layers[0].Length);
            _alike[end + 1].Add(new Alike(first, group, times, cells, 1 + votes.Sum(vote => RecordsOf(vote.Winner()))));
        }
    }

    private List<Edit> At(double price)
    {
        var cost = new double[_layers.Length + 1];
        var by = new Alike[_layers.Length + 1];
        for (var end = 1; end < cost.Length; end++)
        {
            (cost[end], by[end]) = (cost[end - 1] + _records[end - 1], new Alike(end - 1, 1, 1, 0, _records[end - 1]));
            foreach (var alike in _alike[end])
                if (cost[alike.First] + alike.Records + price * alike.Cells is var total && total < cost[end])
                    (cost[end], by[end]) = (total, alike);
        }
        List<Edit> edits = [];
        for (var end = _layers.Length; end > 0; end = by[end].First)
            if (by[end].Cells > 0)
                edits.Add(Made(by[end]));
        edits.Reverse();
        return edits;
    }

    private Edit Made(Alike alike)
    {
        List<CellEdit> cells = [];
        for (var part = 0; part < alike.Group; part++)
        {
            var votes = new Votes(_layers[0].Length);
            for (var time = 0; time < alike.Times; time++)
                votes.Add(_layers[alike.First + time * alike.Group + part]);
            var winner = votes.Winner();
            for (var time = 0; time < alike.Times; time++)
                if (alike.First + time * alike.Group + part is var layer)
                    Edit.AddDifferences(_layers[layer], winner, layer, cells);
        }
        var last = alike.First + alike.Group * alike.Times - 1;
        return new Edit($"layers {alike.First} to {last} made alike{(alike.Group > 1 ? $", {alike.Group} by {alike.Group}" : "")}", cells);
    }

    private int RecordsOf(byte[] marks)
    {
        var layer = new Shape(_shape.Width, _shape.Depth, [marks]);
        return Math.Max(1, new[] { Head.A, Head.B }.Sum(head => Mask.Of(layer, 0, head) is { } mask ? RectanglePartition.Fewest(mask) : 0));
    }

    private readonly record struct Alike(int First, int Group, int Times, long Cells, int Records);

    // What most of some layers have at each place; where as many have one as another, the empty cell, then head a.
    private sealed class Votes(int places)
    {
        private const int Marks = 3;
        private readonly int[] _count = new int[Marks * places];

        // Cells of layers that are not as most are.
        public long Outvoted { get; private set; }

        public void Add(byte[] layer)
        {
            for (var place = 0; place < places; place++)
            {
                var before = Most(place);
                _count[Marks * place + layer[place]]++;
                Outvoted += Most(place) == before ? 1 : 0;
            }
        }

        public byte[] Winner()
        {
            var winner = new byte[places];
            for (var place = 0; place < places; place++)
                winner[place] = (byte)_count.AsSpan(Marks * place, Marks).IndexOf(Most(place));
            return winner;
        }

        private int Most(int place) => Math.Max(_count[Marks * place], Math.Max(_count[Marks * place + 1], _count[Marks * place + 2]));
    }
}
