namespace Board.Emulator;

/// <summary>An octet that a program has sent.</summary>
/// <param name="Octet">Which.</param>
/// <param name="Cycle">When it was handed to the transmitter.</param>
public readonly record struct SentOctet(byte Octet, ulong Cycle);

/// <summary>
/// The serial line of a chip at 500 000 baud. The emulator takes 11 bits for an octet (silicon: 10), and octets go in no faster than that.
/// </summary>
public sealed unsafe class AvrSerial
{
    public const int Baud = 500_000;

    /// <summary>The time of an octet on the line.</summary>
    public const uint OctetCycles = 11 * AvrChip.FrequencyHz / Baud;

    /// <summary>Octets that silicon's receiver holds: two, while the next is in the shift register (DS40002061A, section 20.7).</summary>
    public const int ReceiverHolds = 2;

    private const int ReceiveVector = 18; // USART_RX (DS40002061A, section 12.1)
    private const ushort Status = 0xC0;   // UCSR0A and UCSR0B (DS40002061A, section 20.11)
    private const ushort Control = 0xC1;
    private const byte ReceiverOn = 0x10; // RXEN0
    private const byte ReceiveBit = 0x80; // RXC0 in the one, RXCIE0 in the other
    private const uint Misread = 0x8000;

    private readonly AvrChip chip;
    private readonly nint input;
    private readonly List<SentOctet> sent = [];
    private ulong lineFree;
    private long generation;
    private int waiting;

    internal AvrSerial(AvrChip chip)
    {
        this.chip = chip;
        uint noEchoNoSleep = 0;
        chip.Control(Simavr.Code('u', 'a', 's', '0'), &noEchoNoSleep);
        var uart = Simavr.Code('u', 'a', 'r', '0');
        input = Simavr.GetSignal(chip.Handle, uart, 0);
        chip.Watch(Simavr.GetSignal(chip.Handle, uart, 1), OnSent);
        chip.WatchInterrupt(ReceiveVector, OnReceiveInterrupt);
        chip.WatchRegister(Control, OnControl);
        chip.Keep(Save);
    }

    /// <summary>An octet leaves the program.</summary>
    public event Action<SentOctet>? Sent;

    /// <summary>An octet has arrived whole, at this cycle, at a receiver that is on.</summary>
    public event Action<byte>? Arrived;

    /// <summary>All that has been sent since <see cref="Forget"/>.</summary>
    public IReadOnlyList<SentOctet> All => sent;

    /// <summary>The most octets that have ever waited for the receive interrupt at once.</summary>
    public int MostWaiting { get; private set; }

    /// <summary>The cycle from which on the line to the chip is free.</summary>
    public ulong LineFree => Math.Max(lineFree, chip.Cycle);

    /// <summary>Sends octets to the chip, one after another, after those that are on their way.</summary>
    public void Send(ReadOnlySpan<byte> octets)
    {
        foreach (var octet in octets)
            Send(octet, octet);
    }

    /// <summary>Sends an octet whose stop bit the chip does not see.</summary>
    public void SendMisread(byte octet) => Send(octet, octet | Misread);

    public void Forget() => sent.Clear();

    internal void AfterReset()
    {
        lineFree = chip.Cycle;
        waiting = 0;
        generation++;
    }

    private Action Save()
    {
        var (free, inReset, left, most, octets) = (lineFree, generation, waiting, MostWaiting, sent.ToArray());
        return () =>
        {
            (lineFree, generation, waiting, MostWaiting) = (free, inReset, left, most);
            sent.Clear();
            sent.AddRange(octets);
        };
    }

    private void Send(byte octet, uint value)
    {
        var start = LineFree;
        lineFree = start + OctetCycles;
        chip.At(start, () => Begin(octet, value));
    }

    private void Begin(byte octet, uint value)
    {
        if ((chip.ReadData(Control) & ReceiverOn) == 0)
            return;
        var begunIn = generation;
        Simavr.Raise(input, value);
        chip.At(chip.Cycle + OctetCycles, () => Arrive(octet, begunIn));
    }

    private void Arrive(byte octet, long begunIn)
    {
        if (begunIn != generation)
            return;
        waiting++;
        MostWaiting = Math.Max(MostWaiting, waiting);
        Arrived?.Invoke(octet);
    }

    /// <summary>On silicon an octet that came while masked interrupts as soon as the mask opens; the emulator waits for the next one.</summary>
    private void OnControl(uint value)
    {
        if ((value & ReceiveBit) != 0 && (chip.ReadData(Status) & ReceiveBit) != 0)
            chip.RaiseInterrupt(ReceiveVector);
    }

    private void OnReceiveInterrupt(bool begins)
    {
        if (begins)
            waiting--;
    }

    private void OnSent(uint octet)
    {
        var one = new SentOctet((byte)octet, chip.Cycle);
        sent.Add(one);
        Sent?.Invoke(one);
    }
}
