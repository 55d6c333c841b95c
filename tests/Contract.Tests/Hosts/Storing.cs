using Bridge.Wire;

namespace Contract.Tests;

/// <summary>Writes a job into a device's store and reads it back.</summary>
internal static class Storing
{
    public static Answer Store(this Host host, byte[] image)
    {
        var answer = host.TellPatiently((byte)MessageType.StoreBegin, Pair(image.Length));
        for (var offset = 0; offset < image.Length && answer == Answer.Accepted; offset += StoreData.MaxOctets)
            answer = host.TellPatiently((byte)MessageType.StoreData,
                [.. Pair(offset), .. image.AsSpan(offset, Math.Min(StoreData.MaxOctets, image.Length - offset))]);
        return answer == Answer.Accepted ? host.TellPatiently((byte)MessageType.StoreCommit, Pair(Fcs16.Of(image))) : answer;
    }

    public static Answer ReadStored(this Host host, int offset, int count, out byte[] octets)
    {
        var answer = host.TellPatiently((byte)MessageType.StoreRead, [.. Pair(offset), (byte)count]);
        octets = answer == Answer.Accepted ? host.Stored.Octets : [];
        return answer;
    }

    public static Answer BeginStored(this Host host, ushort run) => host.TellPatiently((byte)MessageType.BeginStored, Pair(run));

    private static byte[] Pair(int value) => [(byte)(value >> 8), (byte)value];
}
