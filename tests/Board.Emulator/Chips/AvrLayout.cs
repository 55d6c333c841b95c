using System.Runtime.InteropServices;

namespace Board.Emulator;

/// <summary>
/// Where libsimavr 1.6 keeps what it offers no call for, on a 64-bit x86 machine. Reading at a wrong place would make nonsense of every figure, so
/// each place is compared with what a fresh chip must hold there, and a chip that differs is refused.
/// </summary>
internal static unsafe class AvrLayout
{
    private const int StateOffset = 60;
    private const int FrequencyOffset = 64;
    private const int CycleOffset = 80;
    private const int RunLimitOffset = 96;
    private const int RunOffset = 160;
    private const int SleepOffset = 168;
    private const int ProgramCounterOffset = 204;
    private const int FlashOffset = 11_712;
    private const int VectorSignalsOffset = 16;
    private const int LastOfMemoryOffset = 10;
    private const int SignalCountOffset = 176;
    private const int SignalsOffset = 184;
    private const int SignalValueOffset = 20;
    private const int MemoryOffset = 11_720;
    private const ushort LastOfMemory = 0x08FF;
    private const int MostSignals = 10_000;
    private const int FreshFrequency = 1_000_000;
    private const int Running = 2;
    private const ulong OneInstruction = 1;
    private const ulong MostCyclesOfAStep = 100_000;

    private static readonly nint Normal = AddressOf("avr_callback_run_raw");

    public static ulong Cycle(nint chip) => *(ulong*)(chip + CycleOffset);

    /// <summary>Whether the watchdog has bitten: the next step resets the chip instead of running it.</summary>
    public static bool IsAboutToReset(nint chip) => *(nint*)(chip + RunOffset) != Normal;

    /// <summary>The emulator's description of an interrupt, which begins with its number and holds the signals that can be asked for.</summary>
    public static nint Vector(nint chip, int number)
    {
        var vector = Simavr.GetInterruptSignals(chip, (byte)number) - VectorSignalsOffset;
        return *(byte*)vector == number ? vector : throw Refused("the interrupts are not where they should be");
    }

    /// <summary>The instruction that is next, in flash.</summary>
    public static ushort* NextInstruction(nint chip) => (ushort*)(*(byte**)(chip + FlashOffset) + *(uint*)(chip + ProgramCounterOffset));

    public static Span<byte> Flash(nint chip, int octets) => new(*(void**)(chip + FlashOffset), octets);

    /// <summary>Registers, I/O and SRAM.</summary>
    public static Span<byte> Memory(nint chip) => new(*(void**)(chip + MemoryOffset), LastOfMemory + 1);

    /// <summary>How many signals the emulator has, and where the level of each is kept.</summary>
    public static int Signals(nint chip) => *(int*)(chip + SignalCountOffset);

    public static uint* SignalValue(nint chip, int index) => (uint*)((*(nint**)(chip + SignalsOffset))[index] + SignalValueOffset);

    /// <summary>Checks a chip that has just been initialized, then sets its clock and lets it sleep without waiting for the wall clock.</summary>
    public static void Prepare(nint chip, uint frequencyHz)
    {
        if (RuntimeInformation.ProcessArchitecture != Architecture.X64)
            throw Refused("the machine is not a 64-bit x86");
        if (*(uint*)(chip + FrequencyOffset) != FreshFrequency)
            throw Refused("the frequency is not where it should be");
        if (*(int*)(chip + StateOffset) != Running)
            throw Refused("the state is not where it should be");
        if (Cycle(chip) != 0)
            throw Refused("the cycle counter is not where it should be");
        if (*(ulong*)(chip + RunLimitOffset) != OneInstruction)
            throw Refused("the limit of a step is not where it should be");
        if (*(ushort*)(chip + LastOfMemoryOffset) != LastOfMemory || *(void**)(chip + MemoryOffset) == null)
            throw Refused("the memory is not where it should be");
        if (Signals(chip) is < 1 or > MostSignals)
            throw Refused("the signals are not where they should be");
        if (*(nint*)(chip + RunOffset) != Normal)
            throw Refused("the run function is not where it should be");
        if (*(nint*)(chip + SleepOffset) != AddressOf("avr_callback_sleep_raw"))
            throw Refused("the sleep function is not where it should be");
        *(uint*)(chip + FrequencyOffset) = frequencyHz;
        // A step then ends at the next timer or interrupt and not after one instruction: all comes at the same cycles, three times as fast.
        *(ulong*)(chip + RunLimitOffset) = MostCyclesOfAStep;
        *(nint*)(chip + SleepOffset) = AddressOf("avr_pending_sleep_usec");
    }

    private static nint AddressOf(string function) => NativeLibrary.GetExport(NativeLibrary.Load(Simavr.Library), function);

    private static InvalidOperationException Refused(string what) => new($"{Simavr.Library} is not the version 1.6 that the tests know: {what}.");
}
