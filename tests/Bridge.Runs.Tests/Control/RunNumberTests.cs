namespace Bridge.Runs.Tests;

public class RunNumberTests
{
    [Fact]
    public void Numbers_are_of_all_16_bits_but_neither_none_nor_the_boards_own()
    {
        var (low, high) = (0, 0);
        for (var draw = 0; draw < 2000; draw++)
        {
            var number = RunNumber.New();
            Assert.InRange(number, 1, 0xFFFE);
            (low, high) = (low | number, high | (ushort)~number);
        }

        Assert.Equal((0xFFFF, 0xFFFF), (low, high));
    }

    [Theory]
    [InlineData(1, 2)]
    [InlineData(0xFFFD, 0xFFFE)]
    [InlineData(0xFFFE, 1)]
    [InlineData(0xFFFF, 1)] // of a journal of before
    public void The_number_after_the_highest_is_the_first(int before, int after) => Assert.Equal(after, RunNumber.After((ushort)before));
}
