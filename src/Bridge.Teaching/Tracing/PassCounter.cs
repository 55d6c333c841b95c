using Bridge.Jobs;

namespace Bridge.Teaching;

/// <summary>From a count of executed records to the record of the image and its cells; counts only grow.</summary>
internal sealed class PassCounter(Image image, Grid grid)
{
    private readonly PassReader _passes = new(image, grid);
    private long _count = -1;
    private Pass _pass;
    private bool _hasEnded;

    /// <summary>The record that is being done when so many are done, and its cells; the one behind the last has none.</summary>
    public (int Index, long Cells) Of(long done)
    {
        while (_count < done && !_hasEnded)
        {
            _count++;
            _hasEnded = !_passes.TryNext(out _pass);
        }

        return _hasEnded ? (_passes.Next, 0) : (_pass.Index, _pass.Work.Cells);
    }
}
