namespace Board.Emulator;

/// <summary>How long an interrupt lasts, from its first instruction to its return, other interrupts within it included.</summary>
public sealed class InterruptWatch
{
    private readonly AvrChip chip;
    private ulong begun;

    public InterruptWatch(AvrChip chip, int vector)
    {
        this.chip = chip;
        chip.WatchInterrupt(vector, OnRunning);
    }

    public long Count { get; private set; }

    public ulong Total { get; private set; }

    public ulong Longest { get; private set; }

    public void Forget() => (Count, Total, Longest) = (0, 0, 0);

    private void OnRunning(bool begins)
    {
        if (begins)
        {
            begun = chip.Cycle;
            return;
        }
        if (begun == 0)
            return;
        Count++;
        Total += chip.Cycle - begun;
        Longest = Math.Max(Longest, chip.Cycle - begun);
    }
}
