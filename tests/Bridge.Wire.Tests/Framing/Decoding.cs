namespace Bridge.Wire.Tests;

/// <summary>Runs octets through a decoder and tells in words what it reported, as the golden vectors do.</summary>
internal static class Decoding
{
    public static List<string> Events(IEnumerable<byte> octets) => Events(new FrameDecoder(), octets);

    public static List<string> Events(FrameDecoder decoder, IEnumerable<byte> octets)
    {
        var events = new List<string>();
        foreach (var octet in octets)
        {
            var before = decoder.Counters;
            if (decoder.Push(octet) is var seen && seen == DecoderEvent.Stop)
                events.Add("stop");
            else if (seen == DecoderEvent.Frame)
                events.Add("frame:" + Convert.ToHexStringLower(decoder.Frame));
            if (Discarded(before, decoder.Counters) is { } reason)
                events.Add(reason);
        }
        return events;
    }

    public static List<byte[]> Frames(FrameDecoder decoder, IEnumerable<byte> octets)
    {
        var frames = new List<byte[]>();
        foreach (var octet in octets)
            if (decoder.Push(octet) == DecoderEvent.Frame)
                frames.Add(decoder.Frame.ToArray());
        return frames;
    }

    public static byte[] Encode(ReadOnlySpan<byte> frame)
    {
        var line = new byte[FrameFormat.MaxOnLine];
        return line[..FrameEncoder.Encode(frame, line)];
    }

    private static string? Discarded(FrameCounters before, FrameCounters after) =>
        after.BadFcs > before.BadFcs ? "bad_fcs"
        : after.TooShort > before.TooShort ? "too_short"
        : after.TooLong > before.TooLong ? "too_long"
        : after.Aborted > before.Aborted ? "aborted"
        : after.Spoiled > before.Spoiled ? "spoiled"
        : null;
}
