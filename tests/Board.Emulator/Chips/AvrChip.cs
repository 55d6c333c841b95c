using System.Runtime.CompilerServices;
using System.Runtime.ExceptionServices;
using System.Runtime.InteropServices;

namespace Board.Emulator;

/// <summary>
/// An emulated ATmega328P at 16 MHz with a program in it. It runs as far as it is told and no further; all that goes in and comes out does so at a
/// cycle, so two runs with the same inputs are the same. Interrupt entry takes no cycles here: add <see cref="InterruptEntryCycles"/> to a latency.
/// </summary>
public sealed unsafe class AvrChip : IDisposable
{
    public const uint FrequencyHz = 16_000_000;

    /// <summary>What an interrupt's entry takes on silicon and not here: 4 cycles and 3 for the jump in the vector (DS40002061A, section 7.7.1).</summary>
    public const int InterruptEntryCycles = 7;

    private const int FlashBytes = 32 * 1024;
    private const int EepromBytes = 1024;
    private const ushort ResetFlags = 0x54; // MCUSR in data space (DS40002061A, register summary)

    private readonly Agenda agenda = new();
    private readonly GCHandle self;
    private readonly List<GCHandle> watches = [];
    private readonly List<Func<Action>> parts = [];
    private nint chip;
    private ulong? timerSet;
    private (nint Place, ushort Instruction)? hangs;
    private ExceptionDispatchInfo? thrown;

    /// <summary>A chip after power-on, with a program of at most 32 KB at address 0.</summary>
    public AvrChip(ReadOnlySpan<byte> program)
    {
        if (program.Length is 0 or > FlashBytes)
            throw new ArgumentException($"A program has 1 to {FlashBytes} octets, this one {program.Length}.", nameof(program));
        Simavr.SetLogger(&Ignore);
        chip = Simavr.Make("atmega328p");
        if (chip == 0 || Simavr.Initialize(chip) != 0)
            throw new InvalidOperationException("The emulator makes no ATmega328P.");
        AvrLayout.Prepare(chip, FrequencyHz);
        fixed (byte* code = program)
            Simavr.LoadCode(chip, code, (uint)program.Length, 0);
        self = GCHandle.Alloc(this);
        Keep(agenda.Save);
        Keep(SaveTimer);
        Keep(SaveEeprom);
        Pins = new AvrPins(this);
        Serial = new AvrSerial(this);
        _ = new AvrEepromWrites(this);
        Reset(ResetCause.PowerOn);
    }

    /// <summary>Clock cycles since the chip was made; a reset does not set them back.</summary>
    public ulong Cycle => AvrLayout.Cycle(chip);

    /// <summary>How often the watchdog has reset the chip.</summary>
    public int WatchdogResets { get; private set; }

    public AvrPins Pins { get; }

    public AvrSerial Serial { get; }

    internal nint Handle => chip;

    /// <summary>Does something at a cycle, or with the next instruction where that has passed.</summary>
    public void At(ulong cycle, Action action)
    {
        agenda.Add(cycle, action);
        SetTimer();
    }

    /// <summary>Runs until a cycle has come; the last instruction may end a few cycles later.</summary>
    public void RunTo(ulong cycle)
    {
        At(cycle, static () => { });
        while (Cycle < cycle)
            Step();
    }

    public void RunFor(TimeSpan time) => RunTo(Cycle + Cycles(time));

    /// <summary>Runs until something holds; false where it does not within a time. It is looked at every 100 us and at every event.</summary>
    public bool RunUntil(Func<bool> holds, TimeSpan within)
    {
        var end = Cycle + Cycles(within);
        while (!holds())
        {
            if (Cycle >= end)
                return false;
            RunTo(Math.Min(end, Cycle + 1600));
        }
        return true;
    }

    public static ulong Cycles(TimeSpan time) => (ulong)(time.Ticks * FrequencyHz / TimeSpan.TicksPerSecond);

    public static double Microseconds(ulong cycles) => cycles / (FrequencyHz / 1e6);

    /// <summary>This moment, to come back to.</summary>
    public AvrSnapshot Snapshot() => new(this, parts);

    /// <summary>Something wired to the chip belongs to its snapshots: it is asked to remember itself, and answers with what puts it back.</summary>
    public void Keep(Func<Action> save) => parts.Add(save);

    /// <summary>Resets the chip; what was on its way to it is lost, levels on its pins stay.</summary>
    public void Reset(ResetCause cause)
    {
        agenda.Clear();
        Simavr.Reset(chip);
        WriteData(ResetFlags, (byte)cause);
        AfterReset();
    }

    /// <summary>The program hangs where it is, until a reset: the next instruction becomes a jump to itself.</summary>
    public void Hang()
    {
        const ushort jumpToItself = 0xCFFF;
        var place = AvrLayout.NextInstruction(chip);
        hangs = ((nint)place, *place);
        *place = jumpToItself;
    }

    /// <summary>An octet of data space: registers, I/O, SRAM from 0100h to 08FFh. To read a register may change it.</summary>
    public byte ReadData(ushort address) => Simavr.ReadData(chip, address);

    /// <summary>Octets of SRAM, as they are at this moment.</summary>
    public ReadOnlySpan<byte> Memory(ushort address, int count) => AvrLayout.Memory(chip).Slice(address, count);

    public void WriteData(ushort address, byte value) => Simavr.WriteData(chip, address, value);

    internal void WriteFlash(int address, ReadOnlySpan<byte> octets)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(address + octets.Length, FlashBytes);
        octets.CopyTo(AvrLayout.Flash(chip, FlashBytes)[address..]);
    }

    /// <summary>The EEPROM's octets from an address on.</summary>
    public byte[] ReadEeprom(int address, int count)
    {
        var octets = new byte[count];
        EepromDo('g', address, octets);
        return octets;
    }

    public void WriteEeprom(int address, ReadOnlySpan<byte> octets) => EepromDo('s', address, octets);

    /// <summary>Calls back whenever the chip enters an interrupt (1) or leaves it (0).</summary>
    public void WatchInterrupt(int vector, Action<bool> running)
    {
        var uart = Simavr.Code('u', 'a', 'r', '0');
        var signalBytes = Simavr.GetSignal(chip, uart, 1) - Simavr.GetSignal(chip, uart, 0);
        var pending = Simavr.GetInterruptSignals(chip, (byte)vector);
        Watch(pending + signalBytes, value => running(value != 0));
    }

    /// <summary>Calls back with what the program has written to an I/O register.</summary>
    internal void WatchRegister(ushort address, Action<uint> onWrite)
    {
        const int allBits = 8;
        Watch(Simavr.GetRegisterSignal(chip, address, null, allBits), onWrite);
    }

    /// <summary>Makes an interrupt pending whose flag is set.</summary>
    internal void RaiseInterrupt(int vector) => _ = Simavr.RaiseInterrupt(chip, AvrLayout.Vector(chip, vector));

    internal void Control(uint code, void* parameter)
    {
        if (Simavr.Control(chip, code, parameter) < 0)
            throw new InvalidOperationException($"The emulator does not know the call {code:X8}.");
    }

    internal void Watch(nint signal, Action<uint> onValue)
    {
        var watch = GCHandle.Alloc(new Watcher(this, onValue));
        watches.Add(watch);
        Simavr.Watch(signal, &OnSignal, GCHandle.ToIntPtr(watch));
    }

    public void Dispose()
    {
        if (chip == 0)
            return;
        Simavr.Terminate(chip);
        NativeMemory.Free((void*)chip);
        chip = 0;
        watches.ForEach(watch => watch.Free());
        self.Free();
    }

    private void Step()
    {
        var resets = AvrLayout.IsAboutToReset(chip);
        var state = Simavr.Run(chip);
        thrown?.Throw();
        if (resets)
        {
            WatchdogResets++;
            AfterReset();
        }
        if (state is Simavr.Crashed or Simavr.Done)
            throw new AvrException(state == Simavr.Crashed ? "The emulated program crashed." : "The emulated program stopped itself.");
    }

    private void AfterReset()
    {
        if (hangs is { } hung)
            *(ushort*)hung.Place = hung.Instruction;
        hangs = null;
        timerSet = null; // a reset forgets the emulator's timers
        // An external interrupt by level is looked at every cycle, even one that is off, and through memory that no snapshot holds. The firmware uses none.
        for (byte number = 0; number < 2; number++)
            Simavr.PollExternalInterrupt(chip, number, 0);
        Serial.AfterReset();
        Pins.AfterReset();
        SetTimer();
    }

    private Action SaveEeprom()
    {
        var saved = ReadEeprom(0, EepromBytes);
        return () => WriteEeprom(0, saved);
    }

    private Action SaveTimer()
    {
        var saved = timerSet;
        return () => timerSet = saved;
    }

    private void SetTimer()
    {
        if (agenda.Next is not { } next || next >= timerSet)
            return;
        if (timerSet is not null)
            Simavr.CancelTimer(chip, &OnTimer, GCHandle.ToIntPtr(self));
        timerSet = next;
        Simavr.SetTimer(chip, next > Cycle ? next - Cycle : 0, &OnTimer, GCHandle.ToIntPtr(self));
    }

    private void EepromDo(char direction, int address, ReadOnlySpan<byte> octets)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(address);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(address + octets.Length, EepromBytes);
        fixed (byte* place = octets)
        {
            var request = new EepromRequest { Octets = place, Address = (ushort)address, Count = (uint)octets.Length };
            _ = Simavr.Control(chip, Simavr.Code('e', 'e', direction, 'p'), &request); // it reports no success: a test shows that it works
        }
    }

    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static ulong OnTimer(nint chip, ulong when, nint parameter)
    {
        var self = (AvrChip)GCHandle.FromIntPtr(parameter).Target!;
        self.timerSet = ulong.MinValue; // what is asked for meanwhile is seen below
        self.Guard(() => self.agenda.DoUntil(self.Cycle));
        self.timerSet = self.agenda.Next;
        return self.timerSet ?? 0;
    }

    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static void OnSignal(nint signal, uint value, nint parameter)
    {
        var watcher = (Watcher)GCHandle.FromIntPtr(parameter).Target!;
        watcher.Chip.Guard(() => watcher.OnValue(value));
    }

    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static void Ignore(nint chip, int level, nint format, nint arguments)
    {
    }

    /// <summary>Nothing may be thrown through the emulator's own frames: it is kept until they are left.</summary>
    private void Guard(Action action)
    {
        try
        {
            action();
        }
        catch (Exception trouble) when (thrown is null)
        {
            thrown = ExceptionDispatchInfo.Capture(trouble);
        }
    }

    private sealed record Watcher(AvrChip Chip, Action<uint> OnValue);

    private struct EepromRequest
    {
        public byte* Octets;
        public ushort Address;
        public uint Count;
    }
}
