namespace Bridge.Planning;

/// <summary>One island cut into few blocks, from its fewest rectangles on, in bounded effort.</summary>
internal sealed class IslandCutting
{
    private const int Rows = 6;
    private const int MostStates = 200;
    private const int LeastStates = 16;
    private const int StepsOfState = 250; // for each cell of a pass
    private const int IdlePasses = 20;

    private readonly Mask _mask;
    private readonly bool _mayOverlap;
    private readonly long _steps;
    private readonly CancellationToken _ended;
    private List<Block> _blocks; // as seen from the mask's origin

    /// <summary>Cuts it.</summary>
    /// <param name="rectangles">Its fewest rectangles.</param>
    /// <param name="mayOverlap">Whether a cell may be worked twice.</param>
    /// <param name="steps">How much work may be done.</param>
    /// <param name="ended">Ends it early.</param>
    public IslandCutting(List<Block> rectangles, bool mayOverlap, long steps, CancellationToken ended)
    {
        (_mask, _mayOverlap, _steps, _ended, AtLeast) = (Mask.Of(rectangles), mayOverlap, steps, ended, 1);
        _blocks = rectangles.ConvertAll(block => block.MovedBack(_mask.Origin));
        Improve();
        Blocks = _blocks.ConvertAll(block => block.MovedBy(_mask.Origin));
    }

    /// <summary>The blocks.</summary>
    public IReadOnlyList<Block> Blocks { get; }

    /// <summary>No cutting has fewer.</summary>
    public int AtLeast { get; private set; }

    private bool IsProved => _blocks.Count <= AtLeast;

    private void Improve()
    {
        if (IsProved)
            return;
        var random = new Random(_mask.CellCount);
        var states = (int)Math.Clamp(_steps / 3 / StepsOfState / _mask.CellCount, LeastStates, MostStates);
        var passes = new WindowPasses(_mask.Width, _mask.Depth, random, new Effort(_steps, _ended));
        if (Math.Min(_mask.Width, _mask.Depth) <= FrontierSearch.MostRows)
            _blocks = passes.Pass(_blocks, _mask.Depth <= FrontierSearch.MostRows ? View.Plain : View.Transposed, FrontierSearch.MostRows, states);
        var (fewer, atLeast) = BlockMinimum.Find(_mask, isDue: null, _blocks.Count, _mayOverlap, new Effort(_steps / 4, _ended));
        (_blocks, AtLeast) = (fewer ?? _blocks, atLeast);
        if (!IsProved)
            AtLeast = Math.Max(AtLeast, CellsApart.Of(_mask, _blocks.Count, new Effort(_steps / 4, _ended)).Count);
        if (IsProved)
            return;
        _blocks = passes.Improve(_blocks, Rows, states, AtLeast, IdlePasses);
        if (_mayOverlap)
            _blocks = new CoverPasses(_mask, _blocks, random, new Effort(_steps, _ended)).Improve(AtLeast);
    }
}
