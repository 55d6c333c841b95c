using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>
/// Makes a cover, whose blocks may overlap, smaller: takes some neighbouring blocks out and looks for fewer that cover what
/// is then bare.
/// </summary>
internal sealed class CoverPasses
{
    private const int MostBare = 48; // cells that are covered anew at once
    private const int IdleTries = 60;
    private const long StepsOfTry = 2_000_000;

    private readonly Mask _mask;
    private readonly Random _random;
    private readonly Effort _effort;
    private readonly int[] _covered; // how many blocks hold a place of the mask
    private readonly List<Block> _blocks;

    /// <summary>Starts from a cover of a mask.</summary>
    public CoverPasses(Mask mask, List<Block> blocks, Random random, Effort effort)
    {
        (_mask, _random, _effort, _blocks) = (mask, random, effort, [.. blocks]);
        _covered = new int[mask.Cells.Length];
        foreach (var block in blocks)
            Count(block, 1);
    }

    /// <summary>A cover of as few blocks or fewer, none of them larger than it must be.</summary>
    public List<Block> Improve(int atLeast)
    {
        for (var idle = 0; idle < IdleTries + _blocks.Count && _blocks.Count > atLeast && _effort.IsLeft; idle++)
            if (Renew(_blocks[_random.Next(_blocks.Count)]))
                idle = 0;
        return [.. _blocks.OrderBy(block => block.CellsX * block.CellsY).Select(Trimmed).ToList().OrderBy(block => (block.Y, block.X))];
    }

    // Takes the nearest blocks out around one; true where fewer cover what they alone covered.
    private bool Renew(Block seed)
    {
        var near = _blocks.OrderBy(block => Distance(block, seed)).ThenBy(_ => _random.Next());
        var (taken, bare) = (new List<Block>(), new List<int>());
        foreach (var block in near)
        {
            Count(block, -1);
            var more = Places(block).Where(place => _covered[place] == 0).ToList();
            if (bare.Count + more.Count > MostBare && taken.Count > 1)
            {
                Count(block, 1);
                break;
            }
            bare.AddRange(more);
            taken.Add(block);
            if (Distance(block, seed) > 4)
                break;
        }
        _effort.Spend(100 * _blocks.Count);
        var better = Cover(bare, taken.Count);
        if (better is not null)
        {
            _blocks.RemoveAll(taken.Contains);
            _blocks.AddRange(better);
        }
        foreach (var block in better ?? taken)
            Count(block, 1);
        return better is not null;
    }

    private List<Block>? Cover(List<int> bare, int known)
    {
        if (bare.Count == 0 || known < 2)
            return bare.Count == 0 ? [] : null;
        var cells = bare.ConvertAll(place => new Cell(place % _mask.Width, place / _mask.Width));
        int left = cells.Min(cell => cell.X), right = cells.Max(cell => cell.X), bottom = cells.Min(cell => cell.Y), top = cells.Max(cell => cell.Y);
        var part = _mask.Part(new Cell(left, bottom), right - left + 1, top - bottom + 1);
        var isDue = new bool[part.Cells.Length];
        foreach (var cell in cells)
            isDue[(cell.Y - bottom) * part.Width + cell.X - left] = true;
        var effort = new Effort(Math.Min(StepsOfTry, _effort.Left));
        var before = effort.Left;
        var (found, _) = BlockMinimum.Find(part, isDue, known, mayOverlap: true, effort);
        _effort.Spend(before - effort.Left);
        return found?.ConvertAll(block => block.MovedBy(part.Origin));
    }

    // Without the ends whose cells other blocks cover too: they need not be worked twice.
    private Block Trimmed(Block block)
    {
        Count(block, -1);
        for (var isShorter = true; isShorter;)
        {
            isShorter = false;
            foreach (var shorter in block.Shortened())
                if (Places(block).Except(Places(shorter)).All(place => _covered[place] > 0))
                {
                    (block, isShorter) = (shorter, true);
                    break;
                }
        }
        Count(block, 1);
        return block;
    }

    private void Count(Block block, int by)
    {
        foreach (var place in Places(block))
            _covered[place] += by;
    }

    private IEnumerable<int> Places(Block block) => block.Cells().Select(cell => cell.Y * _mask.Width + cell.X);

    private static int Distance(Block one, Block other) => Math.Max(
        Math.Max(one.X - other.X - other.CellsX, other.X - one.X - one.CellsX),
        Math.Max(one.Y - other.Y - other.CellsY, other.Y - one.Y - one.CellsY));
}
