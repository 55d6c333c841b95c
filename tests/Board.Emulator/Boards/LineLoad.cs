using System.Buffers;
using Bridge.Wire;

namespace Board.Emulator;

/// <summary>
/// A line to the board that is never silent: frame after frame without a gap, each a numbered message of a type that no version knows, so that every
/// single one must be taken in, checked and counted. It knows how many it has sent.
/// </summary>
public sealed class LineLoad
{
    private const byte UnknownType = 0x60;

    private readonly AvrChip chip;
    private readonly byte session;
    private readonly byte firstNumber;
    private readonly Random lengths;
    private readonly ArrayBufferWriter<byte> frame = new();
    private byte[] octets = [];
    private int next;
    private bool isStopping;

    /// <param name="chip">The chip that it goes to.</param>
    /// <param name="session">The session octet of the open session.</param>
    /// <param name="firstNumber">The number that the board expects next.</param>
    /// <param name="seed">Of the bodies' lengths, 0 to 59 octets.</param>
    public LineLoad(AvrChip chip, byte session, byte firstNumber, int seed)
    {
        (this.chip, this.session, this.firstNumber) = (chip, session, firstNumber);
        lengths = new Random(seed);
        Compose();
        chip.Keep(Save);
        chip.At(chip.Serial.LineFree, Go);
    }

    /// <summary>Frames begun so far.</summary>
    public int Frames { get; private set; }

    /// <summary>The number that the board expects once it has taken all of them.</summary>
    public byte NextNumber => (byte)(firstNumber + Frames);

    /// <summary>Ends with the frame at hand.</summary>
    public void Finish() => isStopping = true;

    /// <summary>Breaks off within the frame at hand, and sends two STOP octets some cycles later.</summary>
    public void Stop(uint pauseCycles)
    {
        octets = [];
        next = 0;
        isStopping = true;
        chip.At(chip.Serial.LineFree + pauseCycles, () => chip.Serial.Send(StopOctets.Burst[..StopOctets.Least]));
    }

    private void Go()
    {
        if (next == octets.Length)
        {
            if (isStopping)
                return;
            Compose();
        }
        chip.Serial.Send(octets.AsSpan(next++, 1));
        chip.At(chip.Serial.LineFree, Go);
    }

    private void Compose()
    {
        Span<byte> content = stackalloc byte[FrameFormat.MaxContent - FrameFormat.FcsLength];
        content = content[..(FrameFormat.HeaderLength + lengths.Next(FrameFormat.MaxBody + 1))];
        lengths.NextBytes(content);
        (content[0], content[1], content[2]) = (UnknownType, session, NextNumber);
        frame.ResetWrittenCount();
        FrameEncoder.Encode(content, frame);
        octets = frame.WrittenSpan.ToArray();
        next = 0;
        Frames++;
    }

    private Action Save()
    {
        var (savedOctets, savedNext, stopping, frames) = (octets, next, isStopping, Frames);
        return () => (octets, next, isStopping, Frames) = (savedOctets, savedNext, stopping, frames);
    }
}
