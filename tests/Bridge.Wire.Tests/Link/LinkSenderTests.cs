namespace Bridge.Wire.Tests;

public class LinkSenderTests
{
    private static readonly LinkSettings NeverSilent = new() { SilenceLimit = TimeSpan.FromHours(1), BeatInterval = TimeSpan.FromHours(1) };

    [Fact]
    public void A_window_of_messages_is_in_flight_and_acknowledgements_make_room()
    {
        var host = HostEnd.Opened(new LinkSettings { Window = 3 });
        Assert.True(host.SendCommand(20) && host.SendCommand(20) && host.SendCommand(20));
        Assert.False(host.SendCommand(20));
        Assert.Equal(["Command 0", "Command 1", "Command 2"], host.Sent());
        Assert.True(host.HearStatus(expected: 2, atMs: 25));
        Assert.Equal(1, host.Link.InFlight);
        Assert.True(host.SendCommand(26) && host.SendCommand(26));
        Assert.Equal(["Command 3", "Command 4"], host.Sent());
    }

    [Theory]
    [InlineData(255)]
    [InlineData(3)]
    [InlineData(128)]
    [InlineData(130)]
    public void An_acknowledgement_outside_the_window_is_ignored(byte expected)
    {
        var host = HostEnd.Opened();
        host.SendCommand(20);
        host.SendCommand(20);
        Assert.False(host.HearStatus(expected, 25));
        Assert.Equal(2, host.Link.InFlight);
        Assert.Equal(HostEnd.Ms(10), host.Link.LastHeard);
    }

    [Fact]
    public void A_frame_of_another_session_is_ignored()
    {
        var host = HostEnd.Opened();
        host.SendCommand(20);
        Assert.False(host.Hear(HostEnd.Status, 1, 25, session: 0x35));
        Assert.Equal(1, host.Link.InFlight);
    }

    [Fact]
    public void Host_messages_that_come_back_from_the_line_are_ignored()
    {
        var host = HostEnd.Opened();
        host.SendCommand(20);
        Assert.False(host.Hear(new Command(MachineCommand.Reset), 1, 21));
        Assert.Equal(1, host.Link.InFlight);
    }

    [Fact]
    public void On_time_out_all_in_flight_are_sent_again_from_the_oldest()
    {
        var host = HostEnd.Opened(NeverSilent);
        Assert.Equal(HostEnd.Ms(30), host.Link.Timeout);
        host.SendCommand(20);
        host.SendCommand(22);
        host.Sent();
        Assert.Empty(host.SentByTick(49.9));
        Assert.Equal(["Command 0", "Command 1"], host.SentByTick(50));
        Assert.Equal(HostEnd.Ms(60), host.Link.Timeout);
        Assert.Empty(host.SentByTick(109.9));
        Assert.True(host.HearStatus(1, 109.9));
        Assert.Equal(HostEnd.Ms(169.9), host.Link.NextDeadline);
        Assert.Equal(["Command 1"], host.SentByTick(169.9));
    }

    // RFC 6298, section 3 (Karn): either copy may have been answered, so there is no sample and the time-out stays as it was backed off.
    [Fact]
    public void A_frame_repeated_on_time_out_gives_no_round_trip_and_one_sent_once_does()
    {
        var host = HostEnd.Opened(NeverSilent);
        host.SendCommand(20);
        host.Link.Tick(HostEnd.Ms(50));
        host.HearStatus(1, 51);
        Assert.Equal(HostEnd.Ms(60), host.Link.Timeout);
        host.SendCommand(60);
        host.HearStatus(2, 70);
        Assert.Equal(HostEnd.Ms(25), host.Link.Timeout);
    }

    [Fact]
    public void A_reported_gap_is_filled_at_once_and_once()
    {
        var host = HostEnd.Opened(NeverSilent);
        host.SendCommand(20);
        host.SendCommand(20);
        host.SendCommand(20);
        host.Sent();
        Assert.True(host.Hear(HostEnd.Status with { Gap = true }, 1, 25));
        Assert.Equal(["Command 1", "Command 2"], host.Sent());
        Assert.True(host.Hear(HostEnd.Status with { Gap = true }, 1, 26));
        Assert.Empty(host.Sent());
        Assert.True(host.Hear(HostEnd.Status with { Gap = true }, 2, 31));
        Assert.Equal(["Command 2"], host.Sent());
    }

    // SRTT is 7/8 of the 10 ms of the opening and 1/8 of 5 ms: 9.375 ms.
    [Fact]
    public void A_gap_that_is_still_reported_a_round_trip_later_is_filled_once_more_and_then_it_is_the_time_out_that_counts()
    {
        var host = HostEnd.Opened(NeverSilent);
        host.SendCommand(20);
        host.SendCommand(20);
        host.SendCommand(20);
        host.Sent();
        host.Hear(HostEnd.Status with { Gap = true }, 1, 25);
        Assert.Equal(["Command 1", "Command 2"], host.Sent());
        host.Hear(HostEnd.Status with { Gap = true }, 1, 34);
        Assert.Empty(host.Sent());
        host.Hear(HostEnd.Status with { Gap = true }, 1, 35);
        Assert.Equal(["Command 1", "Command 2"], host.Sent());
        host.Hear(HostEnd.Status with { Gap = true }, 1, 50);
        Assert.Empty(host.Sent());
        var due = HostEnd.Ms(35) + host.Link.Timeout;
        Assert.Equal(due, host.Link.NextDeadline);
        host.Link.Tick(due);
        Assert.Equal(["Command 1", "Command 2"], host.Sent());
    }

    // What the board discarded cannot be acknowledged, so the round trip counts from the copy that replaced it.
    [Fact]
    public void A_message_that_replaces_a_discarded_one_gives_a_round_trip_of_its_own()
    {
        var host = HostEnd.Opened(NeverSilent);
        host.SendCommand(20);
        host.Hear(HostEnd.Status with { Gap = true }, 0, 40);
        host.HearStatus(1, 50);
        Assert.Equal(HostEnd.Ms(25), host.Link.Timeout);
    }

    [Fact]
    public void A_status_that_makes_no_sense_acknowledges_nothing()
    {
        var host = HostEnd.Opened();
        host.SendCommand(20);
        Assert.False(host.Hear(HostEnd.Status with { State = MachineState.Undefined }, 1, 25));
        Assert.Equal(1, host.Link.InFlight);
    }

    [Fact]
    public void After_eight_retransmissions_in_a_row_the_line_is_dead()
    {
        var host = HostEnd.Opened(NeverSilent);
        host.SendCommand(20);
        host.Sent();
        var sent = 0;
        while (host.Link.State == LinkState.Open)
        {
            host.Link.Tick(host.Link.NextDeadline!.Value);
            sent += host.Sent().Count;
        }
        Assert.Equal((8, LinkFault.Unanswered, 1), (sent, host.Link.Fault, host.Link.InFlight));
        Assert.False(host.SendCommand(20_000));
        Assert.False(host.HearStatus(1, 20_000));
        Assert.Empty(host.SentByTick(30_000));
    }

    [Fact]
    public void Any_progress_starts_the_count_of_retransmissions_again()
    {
        var host = HostEnd.Opened(NeverSilent);
        for (byte message = 0; message < 5; message++)
        {
            host.SendCommand(host.Link.LastHeard!.Value.TotalMilliseconds);
            for (var i = 0; i < 8; i++)
                host.Link.Tick(host.Link.NextDeadline!.Value);
            Assert.True(host.HearStatus((byte)(message + 1), host.Link.NextDeadline!.Value.TotalMilliseconds - 1));
        }
        Assert.Equal((LinkState.Open, 40L), (host.Link.State, host.Link.Retransmissions));
    }

    [Fact]
    public void A_board_that_falls_silent_is_reported()
    {
        var host = HostEnd.Opened();
        var beats = 0;
        while (host.Link.State == LinkState.Open)
            beats += host.SentByTick(host.Link.NextDeadline!.Value.TotalMilliseconds).Count(sent => sent == "Beat 0");
        Assert.Equal((LinkFault.Silent, 20), (host.Link.Fault, beats));
    }

    [Fact]
    public void A_beat_is_sent_when_nothing_else_has_been_and_consumes_no_number()
    {
        var host = HostEnd.Opened();
        Assert.Empty(host.SentByTick(99.9));
        Assert.Equal(["Beat 0"], host.SentByTick(100));
        host.SendCommand(150);
        host.HearStatus(1, 155);
        Assert.Equal(["Command 0"], host.Sent());
        Assert.Empty(host.SentByTick(249.9));
        Assert.Equal(["Beat 1"], host.SentByTick(250));
        host.SendCommand(251);
        Assert.Equal(["Command 1"], host.Sent());
    }

    [Fact]
    public void A_tick_at_the_deadline_always_moves_the_deadline_on()
    {
        var host = HostEnd.Opened();
        host.SendCommand(20);
        var before = TimeSpan.Zero;
        while (host.Link.NextDeadline is { } due)
        {
            Assert.True(due > before);
            host.Link.Tick(due);
            before = due;
        }
        Assert.Equal(LinkState.Failed, host.Link.State);
    }

    [Fact]
    public void An_unnumbered_message_is_not_for_the_caller_to_send() =>
        Assert.Throws<ArgumentException>(() => HostEnd.Opened().Link.TrySend(new Beat(), HostEnd.Ms(20), out _));

    [Theory]
    [InlineData(0)]
    [InlineData(128)]
    public void A_window_that_serial_numbers_cannot_order_is_our_own_mistake(int window) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new HostEnd(new LinkSettings { Window = window }));

    [Fact]
    public void A_message_is_acknowledged_once_the_board_expects_the_next()
    {
        var host = HostEnd.Opened(NeverSilent);
        host.SendCommand(20);
        host.SendCommand(20);
        host.SendCommand(20);
        Assert.False(host.Link.IsAcknowledged(0));
        host.HearStatus(1, 25);
        Assert.True(host.Link.IsAcknowledged(0));
        Assert.False(host.Link.IsAcknowledged(1));
        Assert.False(host.Link.IsAcknowledged(2));
        host.HearStatus(3, 30);
        Assert.True(host.Link.IsAcknowledged(1));
        Assert.True(host.Link.IsAcknowledged(2));
    }

    [Fact]
    public void The_board_was_last_heard_when_its_last_frame_came_and_never_before_its_welcome()
    {
        var host = new HostEnd();
        host.Link.Open(HostEnd.Token, HostEnd.Ms(0));
        Assert.Null(host.Link.LastHeard);
        host.Hear(HostEnd.Welcome, 0, 10);
        Assert.Equal(HostEnd.Ms(10), host.Link.LastHeard);
        host.HearStatus(0, 15);
        Assert.Equal(HostEnd.Ms(15), host.Link.LastHeard);
    }

    [Fact]
    public void Time_in_which_the_host_did_not_listen_does_not_count_as_silence()
    {
        var host = HostEnd.Opened(new LinkSettings { SilenceLimit = HostEnd.Ms(1000) });
        host.Link.Excuse(HostEnd.Ms(500), HostEnd.Ms(600));
        host.Link.Tick(HostEnd.Ms(1509));
        Assert.Equal(LinkState.Open, host.Link.State);
        host.Link.Tick(HostEnd.Ms(1510));
        Assert.Equal((LinkState.Failed, LinkFault.Silent), (host.Link.State, host.Link.Fault));
        Assert.Throws<ArgumentOutOfRangeException>(() => host.Link.Excuse(HostEnd.Ms(-1), HostEnd.Ms(2000)));
    }

    [Fact]
    public void However_long_the_host_was_away_silence_counts_from_what_it_hears_as_it_comes_back()
    {
        var host = HostEnd.Opened(new LinkSettings { SilenceLimit = HostEnd.Ms(1000) });
        host.HearStatus(0, 600_000);
        host.Link.Excuse(HostEnd.Ms(599_000), HostEnd.Ms(600_000));
        Assert.Equal(HostEnd.Ms(600_000), host.Link.LastHeard);
        host.Link.Tick(HostEnd.Ms(600_999));
        Assert.Equal(LinkState.Open, host.Link.State);
        host.Link.Tick(HostEnd.Ms(601_000));
        Assert.Equal(LinkFault.Silent, host.Link.Fault);
    }

    [Fact]
    public void A_link_that_is_closed_has_nothing_in_flight_and_nothing_to_do()
    {
        var host = HostEnd.Opened(NeverSilent);
        host.SendCommand(20);
        host.Sent();
        host.Link.Close();
        Assert.Equal((LinkState.Closed, 0), (host.Link.State, host.Link.InFlight));
        Assert.Null(host.Link.NextDeadline);
        Assert.Empty(host.SentByTick(60_000));
    }

    [Fact]
    public void A_Welcome_again_in_an_open_session_acknowledges_and_does_not_begin_anew()
    {
        var host = HostEnd.Opened(NeverSilent);
        host.SendCommand(20);
        Assert.True(host.Hear(HostEnd.Welcome with { QueueRecords = 99 }, 1, 25));
        Assert.Equal(0, host.Link.InFlight);
        Assert.Equal(HostEnd.Welcome, host.Link.Welcome);
    }

    [Fact]
    public void With_nothing_in_flight_no_gap_and_no_time_out_sends_anything_again()
    {
        var host = HostEnd.Opened(NeverSilent);
        var timeout = host.Link.Timeout;
        host.Hear(HostEnd.Status with { Gap = true }, 0, 25);
        for (var second = 1; second < 20; second++)
            Assert.Empty(host.SentByTick(second * 1000));
        Assert.Equal((0, timeout, LinkState.Open), (host.Link.Retransmissions, host.Link.Timeout, host.Link.State));
        host.SendCommand(20_000);
        host.Sent();
        host.Hear(HostEnd.Status with { Gap = true }, 0, 20_001);
        Assert.Equal(["Command 0"], host.Sent());
    }

    [Fact]
    public void The_first_round_trip_is_that_of_hello_whenever_the_session_was_opened()
    {
        var host = new HostEnd();
        host.Link.Open(HostEnd.Token, HostEnd.Ms(5000));
        host.Hear(HostEnd.Welcome, 0, 5010);
        Assert.Equal(HostEnd.Ms(30), host.Link.Timeout); // RFC 6298, section 2.2: 10 + 4 * 5
    }

    [Fact]
    public void What_was_sent_for_a_gap_a_second_time_gives_no_round_trip()
    {
        var host = HostEnd.Opened(NeverSilent);
        host.SendCommand(20);
        host.Hear(HostEnd.Status with { Gap = true }, 0, 25);
        host.Hear(HostEnd.Status with { Gap = true }, 0, 45);
        var timeout = host.Link.Timeout;
        host.HearStatus(1, 100);
        Assert.Equal((timeout, 2), (host.Link.Timeout, host.Link.Retransmissions));
    }

    [Theory]
    [InlineData(500, 100, 2000, 110)] // the beat
    [InlineData(500, 800, 300, 310)] // silence
    [InlineData(50, 800, 2000, 70)] // the time-out of what is in flight
    public void The_next_deadline_is_the_first_of_beat_silence_and_time_out(double floor, double beat, double silence, double due)
    {
        var host = HostEnd.Opened(new LinkSettings
        {
            InitialTimeout = HostEnd.Ms(floor), TimeoutFloor = HostEnd.Ms(floor), BeatInterval = HostEnd.Ms(beat), SilenceLimit = HostEnd.Ms(silence),
        });
        host.SendCommand(beat == 100 ? 10 : 20);
        Assert.Equal(HostEnd.Ms(due), host.Link.NextDeadline);
    }
}
