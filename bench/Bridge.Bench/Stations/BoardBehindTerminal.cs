using System.Diagnostics;
using System.Runtime.InteropServices;
using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Bench;

/// <summary>A mock device behind a pseudo-terminal, as a board is behind a serial port; it takes note of when STOP arrives.</summary>
internal sealed partial class BoardBehindTerminal : IDisposable
{
    private const int ReadWriteNoControl = 0x0002 | 0x0100;
    private const int NonBlocking = 0x0800;
    private const short Readable = 1;

    private readonly MockPort _port;
    private readonly ILine _line;
    private readonly int _end;
    private readonly Thread _hearing;
    private readonly Thread _speaking;
    private volatile bool _isOver;
    private long _stopAt;

    public BoardBehindTerminal(Machine machine)
    {
        _port = new MockPort(new MockDevice(new Gantry(machine, seed: 1)), TimeProvider.System, machine.Baud);
        _line = _port.Open();
        _end = OpenEnd(ReadWriteNoControl | NonBlocking);
        if (_end < 0 || Grant(_end) != 0 || Unlock(_end) != 0)
            throw new InvalidOperationException("The system gives no pseudo-terminal.");
        PortName = Marshal.PtrToStringUTF8(NameOf(_end))!;
        _hearing = new Thread(Hear) { IsBackground = true };
        _speaking = new Thread(Speak) { IsBackground = true };
        _hearing.Start();
        _speaking.Start();
    }

    /// <summary>The port to open.</summary>
    public string PortName { get; }

    /// <summary>When STOP first arrived since this was last asked, as Stopwatch counts; 0 if it has not.</summary>
    public long TakeStop() => Interlocked.Exchange(ref _stopAt, 0);

    public void Dispose()
    {
        _isOver = true;
        _speaking.Join();
        _line.Dispose();
        _port.Dispose();
        _ = CloseEnd(_end);
    }

    private void Hear()
    {
        var octets = new byte[4096];
        while (!_isOver)
        {
            var look = new Look { End = _end, Events = Readable };
            _ = Poll(ref look, 1, milliseconds: 1); // bounded: where the other end drops what waited, the system does not always wake a reader
            var count = (int)ReadEnd(_end, octets, octets.Length);
            if (count <= 0)
                continue;
            var now = Stopwatch.GetTimestamp();
            if (octets.AsSpan(0, count).IndexOf(StopOctets.Burst[..StopOctets.Least]) >= 0)
                Interlocked.CompareExchange(ref _stopAt, now, 0);
            _line.Write(octets.AsSpan(0, count));
        }
    }

    private void Speak()
    {
        var octets = new byte[4096];
        while (!_isOver)
        {
            var count = _line.Read(octets);
            if (count > 0)
                _ = WriteEnd(_end, octets, count);
            else
                Thread.Sleep(1);
        }
    }

    private struct Look
    {
        public int End;
        public short Events;
        public short Found;
    }

    [LibraryImport("libc", EntryPoint = "poll")]
    private static partial int Poll(ref Look looks, nuint count, int milliseconds);

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
