namespace Bridge.Runs.Tests;

public class SessionTokenTests
{
    private const int Draws = 2000;

    [Fact]
    public void Tokens_are_of_all_16_bits()
    {
        var (low, high) = (0, 0);
        for (var draw = 0; draw < Draws; draw++)
        {
            var token = SessionToken.New();
            (low, high) = (low | token, high | (ushort)~token);
        }

        Assert.Equal((0xFFFF, 0xFFFF), (low, high));
    }

    [Fact]
    public void The_token_after_another_one_differs_in_its_low_octet_which_tells_the_sessions_apart_and_in_the_rest_by_chance()
    {
        var high = new HashSet<int>();
        for (var draw = 0; draw < Draws; draw++)
        {
            var after = SessionToken.After((ushort)draw);
            Assert.NotEqual((byte)draw, (byte)after);
            high.Add(after >> 8);
        }

        Assert.True(high.Count > 200, $"The high octet had {high.Count} values.");
    }
}
