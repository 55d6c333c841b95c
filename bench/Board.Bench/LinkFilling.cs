using System.Buffers;
using System.Globalization;
using Board.Emulator;
using Bridge.Wire;

namespace Board.Bench;

/// <summary>
/// What the host's end of the link brings to the board, over a line that adds a delay to each round trip: full messages, as many as may be in flight.
/// No run has begun, so each is taken in, checked, counted, refused and answered.
/// </summary>
internal sealed class LinkFilling
{
    private const ulong Measured = 2 * AvrChip.FrequencyHz;
    private static readonly TimeSpan Beginning = TimeSpan.FromMilliseconds(200);
    private static readonly TimeSpan Turn = TimeSpan.FromMilliseconds(1);

    private readonly AvrChip _chip;
    private readonly ulong _oneWay;
    private readonly ArrayBufferWriter<byte> _output = new();
    private readonly FrameDecoder _decoder = new();
    private readonly LinkSender _link;
    private readonly Queue<int> _lengths = new();
    private readonly byte[] _octets = new byte[Records.MaxOctets - 1];
    private long _carried;
    private long _answers;

    private LinkFilling(AvrChip chip, TimeSpan delay)
    {
        (_chip, _oneWay) = (chip, AvrChip.Cycles(delay / 2));
        _link = new LinkSender(new LinkSettings(), _output);
        chip.Serial.Sent += octet => chip.At(octet.Cycle + AvrSerial.OctetCycles + _oneWay, () => Hear(octet.Octet));
    }

    private TimeSpan Now => TimeSpan.FromMicroseconds(AvrChip.Microseconds(_chip.Cycle));

    public static IEnumerable<Figure> Measure()
    {
        foreach (var milliseconds in (double[])[0, 2, 10])
        {
            using var board = new EmulatedBoard(BenchMachine.Of(1000));
            yield return new LinkFilling(board.Chip, TimeSpan.FromMilliseconds(milliseconds)).Measure(milliseconds);
        }
    }

    private Figure Measure(double milliseconds)
    {
        _chip.RunFor(Beginning);
        _link.Open(0x1234, Now);
        Write();
        Run(_chip.Cycle + AvrChip.Cycles(Beginning));
        var (began, answers, again) = (_chip.Cycle, _answers, _link.Retransmissions);
        _carried = 0;
        Run(began + Measured);
        if (_link.State != LinkState.Open || _link.Retransmissions > again)
            throw new InvalidOperationException($"The link is {_link.State} and has sent {_link.Retransmissions - again} messages again.");
        var part = _carried * (double)AvrSerial.OctetCycles / (_chip.Cycle - began);
        return new Figure(string.Create(CultureInfo.InvariantCulture, $"link filled, {milliseconds} ms late"), part * 100, "%", 95, IsLeast: true,
            $"{(_answers - answers) * AvrChip.FrequencyHz / (double)(_chip.Cycle - began):0} answers/s; {Apart(began)}");
    }

    // The main loop looks twice a turn whether the transmitter has room, and this chip's has room for one octet.
    private string Apart(ulong since)
    {
        var sent = _chip.Serial.All.Select(octet => octet.Cycle).Where(cycle => cycle >= since).ToList();
        var apart = sent.Zip(sent.Skip(1), (left, right) => AvrChip.Microseconds(right - left)).Order().ToList();
        return string.Create(CultureInfo.InvariantCulture, $"octets {apart[apart.Count / 2]:0} us apart, 90 % at most {apart[apart.Count * 9 / 10]:0} us");
    }

    private void Run(ulong end)
    {
        while (_chip.Cycle < end)
        {
            _chip.RunFor(Turn);
            _link.Tick(Now);
            Write();
        }
    }

    private void Hear(byte octet)
    {
        if (_decoder.Push(octet) != DecoderEvent.Frame)
            return;
        var before = _link.InFlight;
        _link.Receive(_decoder.Frame, Now);
        _answers++;
        for (var taken = before - _link.InFlight; taken > 0; taken--)
            _carried += _lengths.Dequeue();
        while (_link.CanSend)
        {
            var written = _output.WrittenCount;
            _link.TrySend(new Records(0, _octets), Now, out _);
            _lengths.Enqueue(_output.WrittenCount - written);
        }
        Write();
    }

    private void Write()
    {
        if (_output.WrittenCount == 0)
            return;
        var octets = _output.WrittenSpan.ToArray();
        _output.ResetWrittenCount();
        _chip.At(_chip.Cycle + _oneWay, () => _chip.Serial.Send(octets));
    }
}
