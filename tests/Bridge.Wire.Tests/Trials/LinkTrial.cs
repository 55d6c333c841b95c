using System.Buffers;

namespace Bridge.Wire.Tests;

/// <summary>
/// The link's host end, and a board that answers as the firmware does, over a simulated line at 500 000 baud, in virtual time: the host sends as much as it
/// may, in full messages.
/// </summary>
/// <param name="window">Messages in flight.</param>
/// <param name="delay">What the line adds to a round trip, half of it each way.</param>
/// <param name="errors">The chance that a frame is damaged, either way.</param>
/// <param name="pace">The board's.</param>
internal sealed class LinkTrial(int window, TimeSpan delay, double errors, BoardPace pace)
{
    private readonly Random _random = new(1);
    private readonly ArrayBufferWriter<byte> _output = new();
    private readonly FrameDecoder _ofBoard = new();
    private readonly byte[] _records = new byte[Records.MaxOctets];

    /// <summary>Octets of a full message on the line and of a Status, on average.</summary>
    public static (double Message, double Status) Lengths { get; } = (MeanLength(1000), LinkBoard.StatusLength);

    /// <summary>The part of the line's capacity that brings messages on, framing counted: 1 is frames back to back and none damaged.</summary>
    public double Run(TimeSpan duration)
    {
        var (toBoard, toHost) = (new TrialLine<byte[]>(delay / 2, errors, _random), new TrialLine<byte[]>(delay / 2, errors, _random));
        var board = new LinkBoard(toBoard, toHost, pace);
        var link = new LinkSender(new LinkSettings { Window = window }, _output);
        var now = TimeSpan.Zero;
        link.Open(0x1234, now);
        while (now < duration)
        {
            while (link.CanSend)
                link.TrySend(NextMessage(), now, out _);
            link.Tick(now);
            if (link.State == LinkState.Failed)
                throw new InvalidOperationException($"The link was given up: {link.Fault}.");
            Put(toBoard, now);
            now = Later(Earliest(Earliest(link.NextDeadline, toHost.Next), board.NextTurn) ?? duration, now);
            if (board.NextTurn <= now)
                board.Go(now);
            while (toHost.TryTake(now, out var frame))
                foreach (var octet in Arrived(frame))
                    if (_ofBoard.Push(octet) == DecoderEvent.Frame)
                        link.Receive(_ofBoard.Frame, now);
        }

        return board.TakenOctets * TrialLine<byte[]>.Octet / duration;
    }

    private static double MeanLength(int frames)
    {
        var trial = new LinkTrial(1, default, 0, BoardPace.Firmware);
        for (var frame = 0; frame < frames; frame++)
            FrameEncoder.Encode(1, (byte)frame, trial.NextMessage(), trial._output);
        return (double)trial._output.WrittenCount / frames;
    }

    private Records NextMessage()
    {
        for (var index = 0; index < Records.MaxOctets - 1; index += 3) // 18 rows of a 4-bit machine
        {
            _records[index] = (byte)(0x40 + 2 * _random.Next(8));
            _records[index + 1] = (byte)_random.Next(256);
            _records[index + 2] = (byte)_random.Next(16);
        }

        return new Records(0, _records.AsSpan(0, Records.MaxOctets - 1));
    }

    private void Put(TrialLine<byte[]> line, TimeSpan now)
    {
        for (var octets = _output.WrittenSpan; !octets.IsEmpty;)
        {
            var length = octets[1..].IndexOf(FrameFormat.Flag) + 2;
            line.Put(octets[..length].ToArray(), length, now);
            octets = octets[length..];
        }

        _output.ResetWrittenCount();
    }

    /// <summary>The octets of a frame as they arrive: of a damaged one a bit between the flags is another.</summary>
    internal static byte[] Arrived(in TrialFrame<byte[]> frame)
    {
        if (frame.IsDamaged)
            frame.Content[frame.Length / 2] ^= 1;
        return frame.Content;
    }

    private static TimeSpan? Earliest(TimeSpan? left, TimeSpan? right) => right is null || left < right ? left : right;

    private static TimeSpan Later(TimeSpan left, TimeSpan right) => left > right ? left : right;
}
