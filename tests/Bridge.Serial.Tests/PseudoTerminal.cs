using System.Runtime.InteropServices;

namespace Bridge.Serial.Tests;

/// <summary>A pair of ends without any hardware between: the test holds one, and the other is a port that can be opened by name.</summary>
public sealed partial class PseudoTerminal : IDisposable
{
    private const int ReadWrite = 0x0002;
    private const int NoControllingTerminal = 0x0100;
    private const int NonBlocking = 0x0800;
    private const short Readable = 0x0001;

    private int end;

    public PseudoTerminal()
    {
        end = OpenEnd(ReadWrite | NoControllingTerminal | NonBlocking);
        if (end < 0 || Grant(end) != 0 || Unlock(end) != 0)
            throw new InvalidOperationException("The system gives no pseudo-terminal.");
        PortName = Marshal.PtrToStringUTF8(NameOf(end))!;
    }

    public string PortName { get; }

    /// <summary>Writes all, as the port takes it, or fails.</summary>
    public void Write(ReadOnlySpan<byte> octets)
    {
        for (var tries = 0; octets.Length > 0; tries++)
        {
            Assert.True(tries < 5000, "The port takes nothing any more.");
            var count = (int)WriteEnd(end, octets.ToArray(), octets.Length);
            if (count > 0)
                octets = octets[count..];
            else
                Thread.Sleep(1);
        }
    }

    /// <summary>Reads what is there within a time: nothing if it passes.</summary>
    public byte[] Read(int atMost, int withinMs = 1000)
    {
        var asked = new Poll { End = end, Events = Readable };
        if (PollEnds(ref asked, 1, withinMs) <= 0)
            return [];
        var octets = new byte[atMost];
        var count = (int)ReadEnd(end, octets, atMost);
        return octets[..Math.Max(count, 0)];
    }

    /// <summary>Reads exactly so many, or what came until a second passed without any.</summary>
    public byte[] ReadAll(int count)
    {
        var octets = new List<byte>();
        while (octets.Count < count && Read(count - octets.Count) is { Length: > 0 } more)
            octets.AddRange(more);
        return [.. octets];
    }

    /// <summary>The device goes.</summary>
    public void Vanish()
    {
        if (end >= 0)
            _ = CloseEnd(end);
        end = -1;
    }

    public void Dispose() => Vanish();

    [StructLayout(LayoutKind.Sequential)]
    private struct Poll
    {
        public int End;
        public short Events;
        public short Happened;
    }

    [LibraryImport("libc", EntryPoint = "posix_openpt")]
    private static partial int OpenEnd(int flags);

    [LibraryImport("libc", EntryPoint = "grantpt")]
    private static partial int Grant(int end);

    [LibraryImport("libc", EntryPoint = "unlockpt")]
    private static partial int Unlock(int end);

    [LibraryImport("libc", EntryPoint = "ptsname")]
    private static partial nint NameOf(int end);

    [LibraryImport("libc", EntryPoint = "read")]
    private static partial nint ReadEnd(int end, byte[] octets, nint count);

    [LibraryImport("libc", EntryPoint = "write")]
    private static partial nint WriteEnd(int end, byte[] octets, nint count);

    [LibraryImport("libc", EntryPoint = "poll")]
    private static partial int PollEnds(ref Poll asked, nuint count, int timeoutMs);

    [LibraryImport("libc", EntryPoint = "close")]
    private static partial int CloseEnd(int end);
}
