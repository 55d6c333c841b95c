namespace Bridge.Wire.Tests;

/// <summary>The formulas that the bench holds the link against, with what textbooks make of them.</summary>
public class LinkFormulasTests
{
    // Frames of 10 000 bits, of which 200 are overhead, answers of 200 bits, 1 Mb/s.
    private static LinkFormulas LeonGarcia(double reactionMs) => new(10_000, 200, 200, 1e6, TimeSpan.FromMilliseconds(reactionMs));

    // A. Leon-Garcia and I. Widjaja, Communication Networks, section 5.2: the book's printed values from memory, each worked out again by its formula.
    [Theory]
    [InlineData(1, 87.5)]
    [InlineData(10, 48.5)]
    [InlineData(100, 8.9)]
    [InlineData(1000, 0.97)]
    public void One_at_a_time_loses_by_the_reaction_what_the_textbook_says(double reactionMs, double percent) =>
        AssertPrinted(percent, LeonGarcia(reactionMs).OneAtATime(0));

    [Theory]
    [InlineData(1, 0, 87.5)]
    [InlineData(1, 1e-6, 86.6)]
    [InlineData(1, 1e-5, 79.2)]
    [InlineData(1, 1e-4, 32.2)]
    [InlineData(100, 0, 8.9)]
    [InlineData(100, 1e-6, 8.8)]
    [InlineData(100, 1e-5, 8.0)]
    [InlineData(100, 1e-4, 3.3)]
    public void One_at_a_time_loses_by_damage_what_the_textbook_says(double reactionMs, double bitErrors, double percent) =>
        AssertPrinted(percent, LeonGarcia(reactionMs).OneAtATime(LinkFormulas.FrameErrors(bitErrors, 10_000)));

    // At 100 ms its 11 frames lack 0.2 % of the round trip, which the textbook's formula has filled.
    [Theory]
    [InlineData(0, 98)]
    [InlineData(1e-6, 88.2)]
    [InlineData(1e-5, 45.4)]
    [InlineData(1e-4, 4.9)]
    public void Go_back_with_eleven_frames_loses_by_damage_what_the_textbook_says(double bitErrors, double percent) =>
        AssertPrinted(percent, LeonGarcia(99).GoBack(11, LinkFormulas.FrameErrors(bitErrors, 10_000)));

    [Theory]
    [InlineData(0, 98)]
    [InlineData(1e-6, 97)]
    [InlineData(1e-5, 89)]
    [InlineData(1e-4, 36)]
    public void Selective_repeat_loses_by_damage_what_the_textbook_says(double bitErrors, double percent) =>
        AssertPrinted(percent, LeonGarcia(100).SelectiveRepeat(12, LinkFormulas.FrameErrors(bitErrors, 10_000)));

    // J. Kurose and K. Ross, Computer Networking, 8th edition, section 3.4: 30 ms, 1 Gb/s, 8000 bits, answers of no length; read there.
    [Fact]
    public void One_at_a_time_across_a_continent_uses_what_the_textbook_says() =>
        Assert.Equal(0.00027, new LinkFormulas(8000, 0, 0, 1e9, TimeSpan.FromMilliseconds(30)).OneAtATime(0), 5);

    // W. Stallings' satellite: 1 Mb/s, 1000 bits, 270 ms each way; the problem as others quote it, the values worked out by its formula N / (1 + 2a).
    [Theory]
    [InlineData(1, 0.0018)]
    [InlineData(127, 0.235)]
    [InlineData(255, 0.471)]
    [InlineData(511, 0.945)]
    public void A_window_that_does_not_fill_the_round_trip_uses_its_part_of_it(int window, double part)
    {
        var satellite = new LinkFormulas(1000, 0, 0, 1e6, TimeSpan.FromMilliseconds(540));
        Assert.Equal(part, satellite.GoBack(window, 0), 0.0005);
        Assert.Equal(part, satellite.SelectiveRepeat(window, 0), 0.0005);
    }

    [Fact]
    public void The_least_window_is_the_round_trip_and_the_message_that_shows_a_gap() =>
        Assert.Equal((5, 13), (new LinkFormulas(100, 0, 100, 1000, TimeSpan.FromSeconds(0.2)).LeastWindow, LeonGarcia(100).LeastWindow));

    // Half of the last digit that is printed.
    private static void AssertPrinted(double percent, double part) =>
        Assert.Equal(percent, part * 100, percent < 1 ? 0.005 : percent == Math.Round(percent) ? 0.5 : 0.05);
}
