using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace Bridge.Serial;

/// <summary>
/// A port's output as a file of its own, on systems where a port is a file. Octets leave by the thread that hands them over. The library's stream
/// would send them by the thread that also looks for arrivals, and such a look waits, whatever time it is given, until the kernel's own worker has
/// brought what has arrived: on busy cores for a second at times, and STOP with it.
/// </summary>
internal sealed partial class FileOutput : IPortOutput
{
    // fcntl.h and errno.h of Linux, and of macOS.
    private static readonly int OpenFlags = OperatingSystem.IsMacOS() ? 0x0001 | 0x2_0000 | 0x0004 | 0x100_0000 : 0x0001 | 0x0100 | 0x0800 | 0x8_0000;
    private static readonly int TryAgain = OperatingSystem.IsMacOS() ? 35 : 11;
    private const int Interrupted = 4;

    // The system keeps some thousand octets, milliseconds even of a fast line: to look each millisecond leaves no gap. To ask the system to
    // be told of room is to wait for arrivals too.
    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(1);

    private readonly SafeFileHandle file;
    private readonly TimeProvider time;

    private FileOutput(SafeFileHandle file, TimeProvider time) => (this.file, this.time) = (file, time);

    /// <inheritdoc/>
    public bool IsIdle => true;

    /// <summary>Opens the output of a port that is set up by somebody else; null if the system does not open it.</summary>
    public static FileOutput? TryOpen(string portName, TimeProvider time)
    {
        var file = Open(portName, OpenFlags);
        if (!file.IsInvalid)
            return new FileOutput(file, time);
        file.Dispose();
        return null;
    }

    /// <inheritdoc/>
    public int Write(ReadOnlySpan<byte> octets)
    {
        while (true)
        {
            var count = (int)Write(file, octets, octets.Length);
            if (count >= 0)
                return count;
            var error = Marshal.GetLastPInvokeError();
            if (error == TryAgain)
                return 0;
            if (error != Interrupted)
                throw new IOException(Marshal.GetPInvokeErrorMessage(error));
        }
    }

    /// <inheritdoc/>
    public Task RoomAsync() => Task.Delay(Look, time);

    /// <inheritdoc/>
    public void ForgetWhatWaits()
    {
    }

    /// <inheritdoc/>
    public void Dispose() => file.Dispose();

    [LibraryImport("libc", EntryPoint = "open", StringMarshalling = StringMarshalling.Utf8)]
    private static partial SafeFileHandle Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "write", SetLastError = true)]
    private static partial nint Write(SafeFileHandle file, ReadOnlySpan<byte> octets, nint count);
}
