namespace Board.Emulator;

/// <summary>The pins of a chip: levels driven from outside, and edges that come out.</summary>
public sealed unsafe class AvrPins
{
    private const string Ports = "BCD";
    private const int AllPins = 8;
    private const int FirstPort = 0x23; // PINB; then DDRB, PORTB, PINC ... in data space (DS40002061A, register summary)

    private const ushort Timer2Control = 0xB0; // TCCR2A; 80h and 20h connect its outputs A and B (DS40002061A, section 18.11.1)

    private readonly AvrChip chip;
    private readonly bool[,] levels = new bool[Ports.Length, AllPins];
    private readonly Dictionary<Pin, byte> pulsed = [];
    private readonly int[] driven = new int[Ports.Length];
    private readonly int[] drivenHigh = new int[Ports.Length];

    internal AvrPins(AvrChip chip)
    {
        this.chip = chip;
        for (var port = 0; port < Ports.Length; port++)
            for (var bit = 0; bit < AllPins; bit++)
                Watch(port, bit);
        WatchPulses(new Pin('B', 3), 0, 0x80);
        WatchPulses(new Pin('D', 3), 1, 0x20);
        chip.Keep(Save);
    }

    /// <summary>Every change of a level, in the order and at the cycle at which they happen, inputs and outputs alike.</summary>
    public event Action<PinEdge>? Changed;

    public bool IsHigh(Pin pin) => levels[PortOf(pin), pin.Bit];

    /// <summary>Whether the program drives a pin.</summary>
    public bool IsOutput(Pin pin) => (chip.ReadData((ushort)(FirstPort + 3 * PortOf(pin) + 1)) >> pin.Bit & 1) != 0;

    /// <summary>Drives an input from outside, at once and until it is driven again.</summary>
    public void Drive(Pin pin, bool isHigh)
    {
        var port = PortOf(pin);
        var mask = 1 << pin.Bit;
        driven[port] |= mask;
        drivenHigh[port] = isHigh ? drivenHigh[port] | mask : drivenHigh[port] & ~mask;
        HoldLevels(port);
        Simavr.Raise(SignalOf(port, pin.Bit), isHigh ? 1u : 0u);
    }

    /// <summary>A reset clears what the chip reads of its pins, and a level that is repeated is not passed on: so each is first driven the other way.</summary>
    internal void AfterReset()
    {
        for (var port = 0; port < Ports.Length; port++)
            for (var bit = 0; bit < AllPins; bit++)
                if ((driven[port] >> bit & 1) != 0)
                {
                    var pin = new Pin(Ports[port], bit);
                    var isHigh = (drivenHigh[port] >> bit & 1) != 0;
                    Drive(pin, !isHigh);
                    Drive(pin, isHigh);
                }
    }

    private Action Save()
    {
        var (saved, savedDriven, savedHigh) = ((bool[,])levels.Clone(), (int[])driven.Clone(), (int[])drivenHigh.Clone());
        return () =>
        {
            Array.Copy(saved, levels, saved.Length);
            savedDriven.CopyTo(driven, 0);
            savedHigh.CopyTo(drivenHigh, 0);
        };
    }

    /// <summary>A write to a port lets its inputs fall back to these levels.</summary>
    private void HoldLevels(int port)
    {
        var external = (ulong)(uint)(Ports[port] | driven[port] << 7 | drivenHigh[port] << 15);
        chip.Control(Simavr.Code('i', 'o', 'p', Ports[port]), &external);
    }

    private void Watch(int port, int bit)
    {
        var pin = new Pin(Ports[port], bit);
        chip.Watch(SignalOf(port, bit), value =>
        {
            if (!IsPulsed(pin))
                Take(pin, (value & 1) != 0);
        });
    }

    /// <summary>On silicon a pin that shows a timer's compare output takes no notice of its port; in the emulator a write to the port would end the pulse.</summary>
    private void WatchPulses(Pin pin, int output, byte connected)
    {
        const int firstCompare = 3;
        pulsed[pin] = connected;
        chip.Watch(Simavr.GetSignal(chip.Handle, Simavr.Code('t', 'm', 'r', '2'), firstCompare + output), value => Take(pin, (value & 1) != 0));
    }

    private bool IsPulsed(Pin pin) => pulsed.TryGetValue(pin, out var connected) && (chip.ReadData(Timer2Control) & connected) != 0;

    private void Take(Pin pin, bool isHigh)
    {
        if (levels[PortOf(pin), pin.Bit] == isHigh)
            return;
        levels[PortOf(pin), pin.Bit] = isHigh;
        Changed?.Invoke(new PinEdge(pin, isHigh, chip.Cycle));
    }

    private nint SignalOf(int port, int bit) => Simavr.GetSignal(chip.Handle, Simavr.Code('i', 'o', 'g', Ports[port]), bit);

    private static int PortOf(Pin pin)
    {
        var port = Ports.IndexOf(pin.Port, StringComparison.Ordinal);
        return port >= 0 && pin.Bit is >= 0 and < AllPins ? port : throw new ArgumentException($"There is no pin {pin}.", nameof(pin));
    }
}
