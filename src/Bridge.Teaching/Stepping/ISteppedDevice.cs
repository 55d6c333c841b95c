using Bridge.Jobs;

namespace Bridge.Teaching;

/// <summary>A device that does what is stepped. What cannot be done is told by false and <see cref="Trouble"/>.</summary>
public interface ISteppedDevice
{
    /// <summary>Why nothing more can be done; null while all is well.</summary>
    string? Trouble { get; }

    /// <summary>What the device says of itself, in a line.</summary>
    string Told { get; }

    /// <summary>Does a step, and waits until it is done.</summary>
    /// <param name="done">The step.</param>
    /// <param name="ticks">The smallest steps of the job with it.</param>
    Task<bool> FollowAsync(StepDone done, long ticks);

    /// <summary>Tells what would move if it were brought back, a line each; none where nothing real moves.</summary>
    /// <exception cref="RefusedException">It cannot be brought there without harm.</exception>
    IReadOnlyList<string> PlanBack(Position to);

    /// <summary>Brings it back to a place.</summary>
    /// <param name="to">Where the machine is there.</param>
    /// <param name="ticks">The smallest steps of the job up to there.</param>
    Task<bool> BackAsync(Position to, long ticks);
}
