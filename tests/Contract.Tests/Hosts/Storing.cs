using Bridge.Wire;

namespace Contract.Tests;

/// <summary>Writes a job into a device's store and reads it back.</summary>
internal static class Storing
{
    public static Refusal Store(this Host host, byte[] image)
    {
        var answer = host.TellPatiently((byte)MessageType.StoreBegin, Pair(image.Length));
        for (var offset = 0; offset < image.Length && answer == Refusal.None; offset += StoreData.MaxOctets)
            answer = host.TellPatiently((byte)MessageType.StoreData,
                [.. Pair(offset), .. image.AsSpan(offset, Math.Min(StoreData.MaxOctets, image.Length - offset))]);
        return answer == Refusal.None ? host.TellPatiently((byte)MessageType.StoreCommit, Pair(Fcs16.Of(image))) : answer;
    }

    public static Refusal ReadStored(this Host host, int offset, int count, out byte[] octets)
    {
        var answer = host.TellPatiently((byte)MessageType.StoreRead, [.. Pair(offset), (byte)count]);
        octets = answer == Refusal.None ? host.Stored.Octets : [];
        return answer;
    }

    public static Refusal BeginStored(this Host host, ushort run) => host.TellPatiently((byte)MessageType.BeginStored, Pair(run));

    private static byte[] Pair(int value) => [(byte)(value >> 8), (byte)value];
}
