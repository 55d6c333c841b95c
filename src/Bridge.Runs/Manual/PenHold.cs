using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>
/// How a pen is kept down for a person who adjusts it, by a device that lifts a pen before it waits for anything: it is told that lowering takes a slice of
/// time and lifting none, and lowers the pen again and again with nothing between. When no more is sent, or nobody sends any more, the pen goes up after the
/// slice under way and the one behind it.
/// </summary>
public static class PenHold
{
    /// <summary>A pen is not held down for longer at a time.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromMinutes(2);

    /// <summary>How long one lowering is told to take.</summary>
    public static readonly TimeSpan Slice = TimeSpan.FromSeconds(0.5);

    /// <summary>The machine to tell a device of before <see cref="HandRun.HoldAsync"/>. Only its pens' times are others.</summary>
    public static Machine On(Machine machine) => machine with { A = Sliced(machine.A), B = machine.B is { } b ? Sliced(b) : null };

    private static HeadTool Sliced(HeadTool tool) => tool is HeadTool.Pen pen ? pen with { Lower = Slice, Lift = TimeSpan.Zero } : tool;
}
