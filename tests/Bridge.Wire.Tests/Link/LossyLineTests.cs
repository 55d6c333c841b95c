using System.Buffers;

namespace Bridge.Wire.Tests;

/// <summary>
/// What must be survived: one frame in ten dropped, damaged or doubled, both ways, at once. What must stop: a line that carries nothing.
/// </summary>
public class LossyLineTests
{
    private const int Messages = 600;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    public void Every_message_is_delivered_exactly_once_and_in_order(int seed)
    {
        var run = Run(seed, faultRate: 0.1, verdict => verdict == FrameVerdict.New);
        Assert.Equal(Enumerable.Range(0, Messages).Select(i => (uint)i), run.Delivered);
        Assert.Equal((LinkState.Open, 0), (run.Link.State, run.Link.InFlight));
        Assert.True(run.Link.Retransmissions > 0);
        Assert.InRange(run.Took, TimeSpan.Zero, TimeSpan.FromSeconds(10));
    }

    [Fact]
    public void A_clean_line_needs_no_retransmission()
    {
        var run = Run(seed: 1, faultRate: 0, verdict => verdict == FrameVerdict.New);
        Assert.Equal((Messages, 0L), (run.Delivered.Count, run.Link.Retransmissions));
    }

    // The canaries: boards with a defect, which the simulation must notice.
    [Theory]
    [InlineData(FrameVerdict.Duplicate)]
    [InlineData(FrameVerdict.Gap)]
    public void A_board_that_executes_what_is_not_new_is_caught(FrameVerdict alsoExecuted)
    {
        var run = Run(seed: 1, faultRate: 0.1, verdict => verdict == FrameVerdict.New || verdict == alsoExecuted);
        Assert.NotEqual(Enumerable.Range(0, Messages).Select(i => (uint)i), run.Delivered);
    }

    [Fact]
    public void A_line_that_carries_nothing_is_given_up()
    {
        var run = Run(seed: 1, faultRate: 1, verdict => verdict == FrameVerdict.New);
        Assert.Equal((LinkState.Failed, LinkFault.Unanswered), (run.Link.State, run.Link.Fault));
        Assert.Empty(run.Delivered);
    }

    private static (List<uint> Delivered, LinkSender Link, TimeSpan Took) Run(int seed, double faultRate, Func<FrameVerdict, bool> executes)
    {
        var random = new Random(seed);
        var (there, back) = (new LossyLine(random, faultRate), new LossyLine(random, faultRate));
        var (hostOutput, boardOutput) = (new ArrayBufferWriter<byte>(), new ArrayBufferWriter<byte>());
        var (hostDecoder, boardDecoder) = (new FrameDecoder(), new FrameDecoder());
        var host = new LinkSender(new LinkSettings(), hostOutput);
        var board = new SmallBoard(executes, boardOutput);
        var next = 0u;
        host.Open(HostEnd.Token, TimeSpan.Zero);
        var now = TimeSpan.Zero;
        for (; now < TimeSpan.FromMinutes(2); now += HostEnd.Ms(0.5))
        {
            foreach (var frame in Decoding.Frames(hostDecoder, back.Arrived(now)))
                host.Receive(frame, now);
            host.Tick(now);
            while (next < Messages && host.CanSend && host.TrySend(new Records(next, [0x40, 0x12, 0x04]), now, out _))
                next++;
            foreach (var frame in Decoding.Frames(boardDecoder, there.Arrived(now)))
                board.Receive(frame);
            there.Write(hostOutput.WrittenSpan, now);
            back.Write(boardOutput.WrittenSpan, now);
            hostOutput.ResetWrittenCount();
            boardOutput.ResetWrittenCount();
            if (host.State == LinkState.Failed || (next == Messages && host.InFlight == 0))
                break;
        }
        return (board.Delivered, host, now);
    }

    /// <summary>A board that does nothing but the link.</summary>
    private sealed class SmallBoard(Func<FrameVerdict, bool> executes, IBufferWriter<byte> output)
    {
        private readonly LinkReceiver _link = new();

        public List<uint> Delivered { get; } = [];

        public void Receive(byte[] frame)
        {
            if (!FrameHeader.TryRead(frame, out var header, out var body))
                return;
            if (header.Type == MessageType.Hello && Hello.TryRead(body, out var hello))
            {
                _link.Open(hello.Token);
                FrameEncoder.Encode(_link.Session, _link.Expected, HostEnd.Welcome with { Token = hello.Token }, output);
                return;
            }
            if (!_link.HearBeat(header.Session, header.Number))
                return;
            if (header.Type.IsNumbered() && executes(_link.Accept(header.Session, header.Number)))
            {
                Assert.True(Records.TryRead(body, out var records));
                Delivered.Add(records.FirstIndex);
            }
            FrameEncoder.Encode(_link.Session, _link.Expected, HostEnd.Status with { Gap = _link.Gap }, output);
        }
    }
}
