namespace Bridge.Serial.Tests;

public sealed class StreamOutputTests : IDisposable
{
    private readonly SlowStream stream = new();

    public void Dispose() => stream.Dispose();

    [Fact]
    public async Task It_takes_256_octets_and_no_more_before_they_have_left()
    {
        using var output = new StreamOutput(stream);
        byte[] octets = [.. Enumerable.Range(0, 300).Select(value => (byte)value)];

        Assert.Equal(256, output.Write(octets));
        Assert.Equal(0, output.Write(octets.AsSpan(256)));
        var room = output.RoomAsync();
        Assert.False(room.IsCompleted || output.IsIdle);

        stream.LetGo();
        await room.WaitAsync(TimeSpan.FromSeconds(5));

        Assert.True(output.IsIdle);
        Assert.Equal(44, output.Write(octets.AsSpan(256)));
        Assert.Equal(octets, stream.Sent);
    }

    [Fact]
    public async Task A_write_that_failed_is_an_error_of_the_next()
    {
        using var output = new StreamOutput(stream);
        output.Write([1]);
        stream.Fail();
        await output.RoomAsync();

        Assert.Throws<IOException>(() => output.Write([2]));
    }

    [Fact]
    public async Task A_write_that_ends_because_what_waits_is_dropped_is_no_error()
    {
        using var output = new StreamOutput(stream);
        output.Write([1]);
        output.ForgetWhatWaits();
        stream.Fail();
        await output.RoomAsync();

        Assert.Equal(1, output.Write([2]));
        Assert.Equal([1, 2], stream.Sent);
        stream.Fail();
        await output.RoomAsync();
        Assert.Throws<IOException>(() => output.Write([3]));
    }

    /// <summary>A stream whose writes end when the test says so.</summary>
    private sealed class SlowStream : MemoryStream
    {
        private TaskCompletionSource underWay = new();

        public byte[] Sent => ToArray();

        public void LetGo() => underWay.SetResult();

        public void Fail() => underWay.SetException(new IOException("The port dropped it."));

        public override ValueTask WriteAsync(ReadOnlyMemory<byte> buffer, CancellationToken cancellationToken = default)
        {
            Write(buffer.Span);
            underWay = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            return new ValueTask(underWay.Task);
        }
    }
}
