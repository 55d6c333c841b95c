namespace Simulation.Tests;

/// <summary>What is counted until a fault strikes.</summary>
internal enum Trigger
{
    /// <summary>Writes of the journal.</summary>
    JournalWrite,

    /// <summary>Frames that the host sends.</summary>
    HostFrame,

    /// <summary>Frames that the board sends.</summary>
    BoardFrame,

    /// <summary>Cells that are worked.</summary>
    Cell,

    /// <summary>Records that are done.</summary>
    Record,

    /// <summary>Turns of the host's loop.</summary>
    Turn,

    /// <summary>Layers that are done, at which the machine finds its zero anew.</summary>
    Layer,

    /// <summary>Milliseconds of the attempt.</summary>
    Time,
}

/// <summary>What strikes.</summary>
internal enum Strike
{
    /// <summary>The host dies before the journal's write.</summary>
    DieBeforeWrite,

    /// <summary>The host dies in the midst of the journal's write.</summary>
    DieInWrite,

    /// <summary>The host dies after the journal's write.</summary>
    DieAfterWrite,

    /// <summary>The host loses its power after the journal's write has been begun.</summary>
    LosePowerInWrite,

    /// <summary>The disk is full for so many milliseconds.</summary>
    FillDisk,

    /// <summary>The host's program dies.</summary>
    KillHost,

    /// <summary>The host's program stalls for so many milliseconds.</summary>
    StallHost,

    /// <summary>The time of day jumps.</summary>
    JumpClock,

    /// <summary>The cable is cut: what is on its way is lost, a frame perhaps in its midst.</summary>
    CutCable,

    /// <summary>The line carries nothing for so many milliseconds; it keeps what is on its way.</summary>
    StallLine,

    /// <summary>The line loses everything for so many milliseconds.</summary>
    LoseAll,

    /// <summary>The board's receiver misreads an octet.</summary>
    Misread,

    /// <summary>The board is reset.</summary>
    ResetBoard,

    /// <summary>The e-stop opens, for so many milliseconds.</summary>
    EStop,

    /// <summary>The wire of an endstop is cut, and mended when the attempt is over.</summary>
    CutEndstop,

    /// <summary>The operator holds.</summary>
    Hold,

    /// <summary>The operator stops the run.</summary>
    Stop,

    /// <summary>The operator stops the machine at once: STOP.</summary>
    Abort,
}

/// <summary>One fault of one attempt.</summary>
/// <param name="When">What is counted.</param>
/// <param name="At">The count at which it strikes, from 1.</param>
/// <param name="What">What strikes.</param>
/// <param name="Milliseconds">For how long, where that matters.</param>
internal sealed record Fault(Trigger When, int At, Strike What, int Milliseconds = 0)
{
    private static readonly (Trigger When, int Most)[] Moments =
        [(Trigger.HostFrame, 90), (Trigger.BoardFrame, 120), (Trigger.Cell, 40), (Trigger.Record, 12), (Trigger.Turn, 400), (Trigger.Time, 4000)];

    private static readonly Strike[] OfJournal = [Strike.DieBeforeWrite, Strike.DieInWrite, Strike.DieAfterWrite, Strike.LosePowerInWrite, Strike.FillDisk];

    private static readonly Strike[] AnyTime =
    [
        Strike.KillHost, Strike.StallHost, Strike.JumpClock, Strike.CutCable, Strike.StallLine, Strike.LoseAll, Strike.Misread, Strike.ResetBoard,
        Strike.EStop, Strike.CutEndstop, Strike.Hold, Strike.Stop, Strike.Abort,
    ];

    /// <summary>A fault from a seed.</summary>
    public static Fault Of(Random random)
    {
        var milliseconds = random.Next(3) switch { 0 => random.Next(1, 60), 1 => random.Next(60, 600), _ => random.Next(600, 4000) };
        if (random.Next(4) == 0)
            return new Fault(Trigger.JournalWrite, 1 + random.Next(45), OfJournal[random.Next(OfJournal.Length)], milliseconds);
        var (when, most) = Moments[random.Next(Moments.Length)];
        return new Fault(when, 1 + random.Next(most), AnyTime[random.Next(AnyTime.Length)], milliseconds);
    }
}

/// <summary>What goes wrong in one attempt to get a job done.</summary>
internal sealed record FaultPlan
{
    public static FaultPlan None { get; } = new();

    public IReadOnlyList<Fault> Faults { get; init; } = [];

    public Noise ToBoard { get; init; } = Noise.None;

    public Noise ToHost { get; init; } = Noise.None;

    /// <summary>Whether nothing goes wrong but that the operator wants something else, so that the machine does it.</summary>
    public bool IsQuiet => ToBoard == Noise.None && ToHost == Noise.None && Faults.All(fault => fault.What is Strike.Hold or Strike.Stop or Strike.Abort);

    /// <summary>Faults of an attempt from a seed.</summary>
    public static FaultPlan Of(Random random) => new()
    {
        Faults = [.. Enumerable.Range(0, random.Next(4)).Select(_ => Fault.Of(random))],
        ToBoard = Noise.Of(random),
        ToHost = Noise.Of(random),
    };
}
