using Bridge.Jobs;

namespace Bridge.Teaching;

/// <summary>
/// Places of a job that can be gone back to: one every so many cells and records, and one at each jump. Where there are too many, every other one is
/// dropped and they come half as often; so their memory is bounded and the way from one to the next stays short.
/// </summary>
internal sealed class StepSnapshots(Grid grid)
{
    private const long MostBytes = 64 << 20;
    private const int MostSnapshots = 1024;
    private const int LeastSnapshots = 8;
    private const int LeastInterval = 256;

    private readonly int _most = (int)Math.Clamp(MostBytes / (grid.X * grid.Y), LeastSnapshots, MostSnapshots);
    private List<Snapshot> _kept = [];
    private long _interval = Math.Max(LeastInterval, grid.X * grid.Y / 4);

    /// <summary>Smallest steps until the next place is to be kept, 1 and up.</summary>
    public long Until(StepState state) => Math.Max(1, _interval - (state.Ticks - _kept[^1].State.Ticks));

    /// <summary>Keeps a place if it is far enough from the last one.</summary>
    public void Offer(StepState state, StepPicture picture)
    {
        if (_kept.Count == 0 || state.Ticks - _kept[^1].State.Ticks >= _interval)
            Keep(state, picture, isJump: false);
    }

    /// <summary>Keeps the place behind a jump, which could not be come to again from one before it.</summary>
    public void KeepJump(StepState state, StepPicture picture) => Keep(state, picture, isJump: true);

    /// <summary>The last place for which something holds; it holds for those up to some place, the beginning among them. Later ones are dropped.</summary>
    public (StepState State, StepPicture Picture) TakeBack(Predicate<StepState> isBefore)
    {
        var last = _kept.FindLastIndex(snapshot => isBefore(snapshot.State));
        _kept.RemoveRange(last + 1, _kept.Count - last - 1);
        return (_kept[last].State.Copy(), _kept[last].Picture.Copy());
    }

    private void Keep(StepState state, StepPicture picture, bool isJump)
    {
        _kept.Add(new Snapshot(state.Copy(), picture.Copy(), isJump));
        if (_kept.Count <= _most + _kept.Count(snapshot => snapshot.IsJump))
            return;
        _interval *= 2;
        _kept = [.. _kept.Where((snapshot, index) => index % 2 == 0 || snapshot.IsJump)];
    }

    private sealed record Snapshot(StepState State, StepPicture Picture, bool IsJump);
}
