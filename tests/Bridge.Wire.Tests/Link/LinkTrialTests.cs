namespace Bridge.Wire.Tests;

/// <summary>What the link makes of a line, with a board at the firmware's pace; the bench has more of them, and longer.</summary>
public class LinkTrialTests
{
    private static readonly TimeSpan Duration = TimeSpan.FromSeconds(10);

    [Theory]
    [InlineData(0, 0, 0.95, 1)]
    [InlineData(2, 0, 0.95, 1)]
    [InlineData(10, 0, 0.95, 1)]
    [InlineData(10, 0.01, 0.87, 0.94)] // 0.90 over a time in which chance evens out: the bench's 300 s
    [InlineData(10, 0.05, 0.55, 0.75)] // 0.64: the line does damage frames
    public void The_link_as_shipped_fills_a_line_that_is_up_to_10_ms_late(double delayMs, double errors, double least, double most) =>
        Assert.InRange(Trial(new LinkSettings().Window, delayMs, errors), least, most);

    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    [InlineData(8)]
    public void A_window_that_is_too_small_fills_its_part_of_the_round_trip(int window)
    {
        var (message, status) = LinkTrial.Lengths;
        var reaction = HostEnd.Ms(10) + BoardPace.Firmware.Turn / 2 + BoardPace.Firmware.Composing;
        var formula = new LinkFormulas(message, 0, status, 50_000, reaction).GoBack(window, 0);
        Assert.InRange(Trial(window, 10, 0), formula * 0.97, formula * 1.03);
    }

    // A board that tells seldom: its Status takes 15 ms on the line. The trial must notice.
    [Fact]
    public void A_board_that_is_slow_to_tell_is_noticed() =>
        Assert.InRange(new LinkTrial(10, HostEnd.Ms(10), 0, new BoardPace(HostEnd.Ms(1.6), HostEnd.Ms(0.1))).Run(Duration), 0, 0.7);

    [Theory]
    [InlineData(11, 0, 0.99, 1)]
    [InlineData(11, 0.05, 0.6, 0.94)]
    [InlineData(44, 0.05, 0.85, 0.96)]
    public void Selective_repeat_comes_near_its_limit_with_a_large_window_alone(int window, double errors, double least, double most) =>
        Assert.InRange(new SelectiveTrial(window, HostEnd.Ms(10), errors, BoardPace.Firmware).Run(Duration), least, most);

    private static double Trial(int window, double delayMs, double errors) =>
        new LinkTrial(window, HostEnd.Ms(delayMs), errors, BoardPace.Firmware).Run(Duration);
}
