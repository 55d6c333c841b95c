using System.IO.Ports;
using Bridge.Wire;

namespace Bridge.Serial;

/// <summary>A serial port as a line. What the system takes at once is sent by the thread that hands it over. Two tasks do the waiting: one takes in what
/// arrives, one sends what had no room.</summary>
public sealed class SerialLine : ILine
{
    private const int ReadOctets = 1024;

    private const int SendOctets = 256;

    private static readonly TimeSpan CloseBound = TimeSpan.FromSeconds(1);

    private readonly SerialPort port;
    private readonly IPortOutput output;
    private readonly PortLock portLock;
    private readonly SerialLineOptions options;
    private readonly TimeProvider time;
    private readonly CancellationTokenSource stop = new();
    private readonly OctetRing arrived;
    private readonly OctetRing outgoing;
    private readonly Lock sendingDoor = new();
    private readonly Signal hasArrived = new();
    private readonly Signal wasRead = new();
    private readonly Signal handedOver = new();
    private readonly TaskCompletionSource released = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly Task sending;
    private volatile bool lastOctetsHandedOver;
    private volatile string? closedBecause;

    /// <summary>Takes over a port that is open, its output, and the lock on it.</summary>
    internal SerialLine(SerialPort port, IPortOutput output, PortLock portLock, SerialLineOptions options, TimeProvider time)
    {
        this.port = port;
        this.output = output;
        this.portLock = portLock;
        this.options = options;
        this.time = time;
        arrived = new OctetRing(options.ArrivedOctets);
        outgoing = new OctetRing(options.OutgoingOctets);
        var stream = port.BaseStream;
        _ = Task.Run(() => TakeInAsync(stream));
        sending = Task.Run(SendAsync);
    }

    /// <summary>The name that the port was opened by.</summary>
    public string PortName => port.PortName;

    /// <inheritdoc/>
    public bool IsOpen => closedBecause is null;

    /// <inheritdoc/>
    public string? ClosedBecause => closedBecause;

    /// <summary>Hands over octets to be sent, in order, and never waits. If the queue has no room for them the line closes.</summary>
    public void Write(ReadOnlySpan<byte> octets)
    {
        lock (sendingDoor)
        {
            if (!IsOpen || lastOctetsHandedOver)
                return;
            var sent = outgoing.Count == 0 ? TrySend(octets) : 0;
            if (sent == octets.Length)
                return;
            if (!outgoing.TryAdd(octets[sent..]))
                Close($"{PortName} does not keep up: {outgoing.Count} octets wait to be sent, {options.OutgoingOctets} may wait.");
        }

        handedOver.Raise();
    }

    /// <summary>
    /// Drops what waits to be sent, here and in the system, and hands over octets: the next that leave. They are handed over before the system is asked as
    /// well as after: to drop something can wait for a worker of its own, and what it drops may be the first ones.
    /// </summary>
    public void Overtake(ReadOnlySpan<byte> octets)
    {
        lock (sendingDoor)
        {
            if (!IsOpen || lastOctetsHandedOver)
                return;
            outgoing.Clear();
            Write(octets);
            DiscardOutgoing();
            outgoing.Clear();
            Write(octets);
        }
    }

    /// <summary>Takes octets that have arrived, also those that arrived before the line closed; 0 if there are none. Never waits.</summary>
    public int Read(Span<byte> octets)
    {
        var count = arrived.Take(octets);
        if (count > 0)
            wasRead.Raise();
        return count;
    }

    /// <inheritdoc/>
    public async ValueTask WaitAsync(TimeSpan atMost, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        var next = hasArrived.Next;
        if (arrived.Count > 0 || !IsOpen || atMost <= TimeSpan.Zero)
            return;
        using var over = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        await Task.WhenAny(next, Task.Delay(atMost, time, over.Token)).ConfigureAwait(false);
        await over.CancelAsync().ConfigureAwait(false);
        cancellation.ThrowIfCancellationRequested();
    }

    /// <summary>Sends what was handed over, closes the port and gives up its lock; each within a bound, whatever the port does.</summary>
    public void Dispose()
    {
        lastOctetsHandedOver = true;
        handedOver.Raise();
        WaitAtMost(sending, options.WriteTimeout);
        Close($"{PortName} was closed by this program.");
        released.Task.Wait();
    }

    private string Gone => $"{PortName} is gone: the cable is out, or the device has no power or was reset.";

    private async Task TakeInAsync(Stream stream)
    {
        var chunk = new byte[ReadOctets];
        try
        {
            while (IsOpen)
            {
                var read = wasRead.Next;
                var room = Math.Min(chunk.Length, arrived.Free);
                if (room == 0)
                {
                    await read.WaitAsync(stop.Token).ConfigureAwait(false);
                    continue;
                }
                var count = await stream.ReadAsync(chunk.AsMemory(0, room), stop.Token).ConfigureAwait(false);
                if (count == 0)
                    throw new EndOfStreamException("The other end hung up.");
                arrived.TryAdd(chunk.AsSpan(0, count));
                hasArrived.Raise();
            }
        }
        catch (Exception trouble) when (PortLoss.Is(trouble))
        {
            Close(Gone);
        }
    }

    private async Task SendAsync()
    {
        try
        {
            while (IsOpen)
            {
                var more = handedOver.Next;
                var last = lastOctetsHandedOver;
                await SendWhatWaitsAsync().ConfigureAwait(false);
                if (last)
                    return;
                await more.WaitAsync(stop.Token).ConfigureAwait(false);
            }
        }
        catch (TimeoutException)
        {
            Close($"{PortName} took no octet for {options.WriteTimeout.TotalSeconds:0.##} s: the device is gone or hangs.");
        }
        catch (Exception trouble) when (PortLoss.Is(trouble))
        {
            Close(Gone);
        }
    }

    // The port may be slow; it may not stand still.
    private async Task SendWhatWaitsAsync()
    {
        var chunk = new byte[SendOctets];
        var stood = time.GetTimestamp();
        while (IsOpen)
        {
            var (sent, left) = SendSome(chunk);
            if (left == 0 && output.IsIdle)
                return;
            if (sent > 0)
                stood = time.GetTimestamp();
            var patience = options.WriteTimeout - time.GetElapsedTime(stood);
            if (patience <= TimeSpan.Zero)
                throw new TimeoutException();
            if (sent == 0)
                await Task.WhenAny(output.RoomAsync(), Task.Delay(patience, time, stop.Token)).ConfigureAwait(false);
        }
    }

    private (int Sent, int Left) SendSome(byte[] chunk)
    {
        lock (sendingDoor)
        {
            var count = outgoing.Peek(chunk);
            var sent = count == 0 ? 0 : output.Write(chunk.AsSpan(0, count));
            outgoing.Drop(sent);
            return (sent, outgoing.Count);
        }
    }

    private int TrySend(ReadOnlySpan<byte> octets)
    {
        try
        {
            return output.Write(octets);
        }
        catch (Exception trouble) when (PortLoss.Is(trouble))
        {
            Close(Gone);
            return octets.Length; // a closed line drops them
        }
    }

    private void DiscardOutgoing()
    {
        try
        {
            output.ForgetWhatWaits();
            port.DiscardOutBuffer();
        }
        catch (Exception trouble) when (PortLoss.Is(trouble))
        {
            Close(Gone);
        }
    }

    private void Close(string because)
    {
        if (Interlocked.CompareExchange(ref closedBecause, because, null) is not null)
            return;
        hasArrived.Raise();
        new Thread(Release) { IsBackground = true, Name = "Closing a serial port" }.Start();
    }

    // Closing a port whose device has gone can hang: it has a thread of its own, and the lock does not wait for it for ever.
    private void Release()
    {
        using var bound = time.CreateTimer(_ => GiveUpLock(), null, CloseBound, Timeout.InfiniteTimeSpan);
        try
        {
            stop.Cancel();
            output.Dispose();
            port.Dispose();
        }
        catch (Exception trouble) when (PortLoss.Is(trouble))
        {
            // The device went first; there is nothing left to close.
        }
        GiveUpLock();
    }

    private void GiveUpLock()
    {
        portLock.Dispose();
        released.TrySetResult();
    }

    private void WaitAtMost(Task task, TimeSpan bound) => Task.WhenAny(task, Task.Delay(bound, time)).Wait();
}
