namespace Bridge.Wire.Tests;

public class LinkOpeningTests
{
    [Fact]
    public void Welcome_with_the_token_opens_the_session()
    {
        var host = new HostEnd();
        host.Link.Open(HostEnd.Token, HostEnd.Ms(0));
        Assert.Equal(["Hello 0"], host.Sent());
        Assert.Equal(LinkState.Opening, host.Link.State);
        Assert.False(host.SendCommand(1));
        Assert.True(host.Hear(HostEnd.Welcome, 0, 10));
        Assert.Equal(LinkState.Open, host.Link.State);
        Assert.Equal(HostEnd.Welcome, host.Link.Welcome);
        Assert.True(host.SendCommand(11));
        Assert.Equal(["Command 0"], host.Sent());
    }

    [Fact]
    public void What_is_left_from_an_earlier_session_does_not_open_this_one()
    {
        var host = new HostEnd();
        host.Link.Open(HostEnd.Token, HostEnd.Ms(0));
        Assert.False(host.HearStatus(0, 1));
        Assert.False(host.Hear(HostEnd.Welcome with { Token = 0x9934 }, 0, 2));
        Assert.False(host.Hear(HostEnd.Welcome, 0, 3, session: 0x99));
        Assert.Equal(LinkState.Opening, host.Link.State);
    }

    [Fact]
    public void Another_wire_version_is_refused_and_named()
    {
        var host = new HostEnd();
        host.Link.Open(HostEnd.Token, HostEnd.Ms(0));
        Assert.False(host.Hear(HostEnd.Welcome with { WireVersion = 2 }, 0, 10));
        Assert.Equal((LinkState.Failed, LinkFault.WrongVersion, (byte?)2), (host.Link.State, host.Link.Fault, host.Link.BoardVersion));
        Assert.Null(host.Link.NextDeadline);
    }

    [Fact]
    public void A_welcome_without_sense_is_refused()
    {
        var host = new HostEnd();
        host.Link.Open(HostEnd.Token, HostEnd.Ms(0));
        Assert.False(host.Hear(HostEnd.Welcome with { QueueRecords = 0 }, 0, 10));
        Assert.Equal(LinkFault.BadWelcome, host.Link.Fault);
    }

    [Fact]
    public void A_token_under_which_the_board_has_taken_messages_already_is_refused()
    {
        var host = new HostEnd();
        host.Link.Open(HostEnd.Token, HostEnd.Ms(0));
        Assert.False(host.Hear(HostEnd.Welcome, expected: 5, atMs: 10));
        Assert.Equal(LinkFault.TokenInUse, host.Link.Fault);
    }

    [Fact]
    public void Hello_is_sent_again_at_growing_intervals_and_then_given_up()
    {
        var host = new HostEnd();
        host.Link.Open(HostEnd.Token, HostEnd.Ms(0));
        host.Sent();
        var times = new List<double>();
        while (host.Link.NextDeadline is { } due)
        {
            times.Add(due.TotalMilliseconds);
            host.Link.Tick(due);
            Assert.Equal(host.Link.State == LinkState.Opening ? ["Hello 0"] : [], host.Sent());
        }
        Assert.Equal([250, 750, 1750, 3750, 5750, 7750, 9750, 11750, 13750], times);
        Assert.Equal((LinkState.Failed, LinkFault.Unanswered), (host.Link.State, host.Link.Fault));
    }

    [Fact]
    public void A_board_that_was_slow_to_start_does_not_make_the_open_line_slow()
    {
        var host = new HostEnd();
        host.Link.Open(HostEnd.Token, HostEnd.Ms(0));
        foreach (var ms in new[] { 250, 750, 1750 })
            host.Link.Tick(HostEnd.Ms(ms));
        host.Hear(HostEnd.Welcome, 0, 1800);
        Assert.Equal(HostEnd.Ms(250), host.Link.Timeout);
    }

    [Fact]
    public void A_new_session_forgets_the_one_before()
    {
        var host = HostEnd.Opened();
        host.SendCommand(20);
        host.Link.Open(0x4321, HostEnd.Ms(30));
        Assert.Equal((0, LinkState.Opening), (host.Link.InFlight, host.Link.State));
        Assert.Null(host.Link.Welcome);
        Assert.False(host.HearStatus(1, 40));
        Assert.True(host.Hear(HostEnd.Welcome with { Token = 0x4321 }, 0, 50, session: 0x21));
    }
}
