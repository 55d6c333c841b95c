using Bridge.Jobs;
using Bridge.Runs;
using Bridge.Wire;

namespace Board.Emulator;

/// <summary>Sends the records of an image, `again` unrolled, as far as the board's credit reaches.</summary>
public sealed class RecordFeed
{
    private readonly BoardHost host;
    private readonly byte[] octets;
    private readonly int width;
    private uint sent;

    internal RecordFeed(BoardHost host, Image image, Grid grid)
    {
        this.host = host;
        width = image.Width.Bytes;
        var source = new RecordSource(Course.Whole(image, grid));
        var all = new List<byte>();
        var part = new byte[Records.MaxOctets];
        for (var count = source.Take(part, long.MaxValue); count > 0; count = source.Take(part, long.MaxValue))
            all.AddRange(part.AsSpan(0, count * width));
        octets = [.. all];
    }

    /// <summary>Records of the whole run.</summary>
    public uint Count => (uint)(octets.Length / width);

    public void Send()
    {
        while (sent < host.Last.RecordsLimit)
        {
            var part = Math.Min(host.Last.RecordsLimit - sent, (uint)Records.MaxCount(width));
            if (!host.TrySend(new Records(sent, octets.AsSpan((int)sent * width, (int)part * width))))
                return;
            sent += part;
        }
    }

    /// <summary>Feeds the board until it is in one of the states; false where a minute of its time has passed.</summary>
    public bool Until(params MachineState[] states) => host.Until(() =>
    {
        Send();
        return states.Contains(host.Last.State);
    });
}
