namespace Bridge.Cli.Tests;

public class TroubleTests
{
    [Fact]
    public async Task A_mistake_of_the_program_ends_with_an_apology_and_code_70()
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = await Trouble.CaughtAsync(new Report(new OutputWriter(output), error), () => throw new InvalidOperationException("the sum is wrong"));
        Assert.Equal(70, code); // EX_SOFTWARE of sysexits.h
        Assert.Contains("Sorry", error.ToString());
        Assert.Contains("InvalidOperationException: the sum is wrong", error.ToString());
        Assert.Contains(nameof(A_mistake_of_the_program_ends_with_an_apology_and_code_70), error.ToString());
        Assert.Empty(output.ToString());
    }
}
