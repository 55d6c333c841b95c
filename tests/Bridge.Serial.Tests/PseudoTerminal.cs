using System.Runtime.InteropServices;

namespace Bridge.Serial.Tests;

/// <summary>A pair of ends without any hardware between: the test holds one, and the other is a port that can be opened by name.</summary>
public sealed partial class PseudoTerminal : IDisposable
{
    private const int ReadWrite = 0x0002;
    private const int NoControllingTerminal = 0x0100;
    private const int NonBlocking = 0x0800;

    private int end;

    public PseudoTerminal()
    {
        end = OpenEnd(ReadWrite | NoControllingTerminal | NonBlocking);
        if (end < 0 || Grant(end) != 0 || Unlock(end) != 0)
            throw new InvalidOperationException("The system gives no pseudo-terminal.");
        PortName = Marshal.PtrToStringUTF8(NameOf(end))!;
    }

    public string PortName { get; }

    /// <summary>Writes all, as the port takes it, or fails when it takes nothing for five seconds.</summary>
    public async Task WriteAsync(byte[] octets)
    {
        for (int done = 0, patience = 5000; done < octets.Length; patience--)
        {
            Assert.True(patience > 0, "The port takes nothing any more.");
            var count = (int)WriteEnd(end, octets[done..], octets.Length - done);
            if (count > 0)
                (done, patience) = (done + count, 5000);
            else
                await Task.Delay(1);
        }
    }

    /// <summary>Reads exactly so many octets, or what came until nothing more had come for a time.</summary>
    public async Task<byte[]> ReadAsync(int count, int withinMs = 5000)
    {
        var octets = new byte[count];
        var done = 0;
        for (var patience = withinMs; done < count && patience > 0; patience--)
        {
            var chunk = new byte[count - done];
            var arrived = (int)ReadEnd(end, chunk, chunk.Length);
            if (arrived > 0)
            {
                chunk.AsSpan(0, arrived).CopyTo(octets.AsSpan(done));
                (done, patience) = (done + arrived, withinMs);
            }
            else
                await Task.Delay(1);
        }
        return octets[..done];
    }

    /// <summary>The device goes.</summary>
    public void Vanish()
    {
        if (end >= 0)
            _ = CloseEnd(end);
        end = -1;
    }

    public void Dispose() => Vanish();

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

    [LibraryImport("libc", EntryPoint = "close")]
    private static partial int CloseEnd(int end);
}
