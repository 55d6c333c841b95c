using Bridge.Jobs;
using Bridge.Teaching;

namespace Bridge.Cli.Tests;

/// <summary>What is typed while a job is stepped, and what is told, away from a terminal.</summary>
public class StepSessionTests
{
    // Row of five from (1, 2); patch of head b a layer up; the end.
    private static readonly Image Job = Image.Parse(RecordWidth.Four, Convert.FromHexString("401204" + "7BA331" + "000000"), "test");
    private static readonly Grid Size = new(16, 16, 16);

    [Fact]
    public async Task A_stop_shows_place_counter_memory_next_record_and_picture()
    {
        var told = await Type("cell 2");
        Assert.Contains("at       (2, 2) on layer 0 (the machine's last is 15), head a", told.Output);
        Assert.Contains("record   0 of 0 to 2: row: head a works 5 cells from (1, 2) along +X", told.Output);
        Assert.Contains("counter  3 cells of it left", told.Output);
        Assert.Contains("repeat   empty", told.Output);
        Assert.Contains("next     1, byte 3: 7B A3 31", told.Output);
        Assert.Contains("  011    1     101      1     1010  0011  0011  0001", told.Output);
        Assert.Contains("\n.Aa.............\n", told.Output);
    }

    [Theory]
    [InlineData("record", "(5, 2) on layer 0")]
    [InlineData("r 2", "(13, 3) on layer 1")]
    [InlineData("layer", "(5, 2) on layer 0")]
    [InlineData("l;l", "(13, 3) on layer 1")]
    [InlineData("c;;", "(3, 2) on layer 0")]
    [InlineData("to record 1", "(5, 2) on layer 0")]
    [InlineData("to layer 1", "(5, 2) on layer 0")]
    [InlineData("to cell 12,3", "(12, 3) on layer 1")]
    [InlineData("to cell 12,3,1", "(12, 3) on layer 1")]
    [InlineData("to head b works", "(10, 3) on layer 1")]
    [InlineData("to end;back", "(5, 2) on layer 0")]
    [InlineData("to end;back 2 cells", "(12, 2) on layer 1")]
    [InlineData("to end;back layer", "(5, 2) on layer 0")]
    [InlineData("to end;back 900 records", "(0, 0) on layer 0")]
    [InlineData("cell;jump 1;yes;cell", "(10, 3) on layer 1")]
    [InlineData("cell;jump 1;no;cell", "(2, 2) on layer 0")]
    public async Task What_is_typed_leads_there(string typed, string place)
    {
        var told = await Type(typed.Split(';'));
        Assert.Equal("", told.Error);
        Assert.StartsWith($"at       {place} (the machine's last is 15), ", told.Output.Split('\n').Last(line => line.StartsWith("at ")));
    }

    [Theory]
    [InlineData("hop", "hop")]
    [InlineData("cell 0", "1 to 1000000000")]
    [InlineData("cell many", "many")]
    [InlineData("record 99999999999", "99999999999")]
    [InlineData("to", "found to")]
    [InlineData("to record 3", "0 to 2")]
    [InlineData("to layer 16", "0 to 15")]
    [InlineData("to cell 16,0", "0 to 15")]
    [InlineData("to cell 3", "X,Y or X,Y,LAYER")]
    [InlineData("to head c works", "head c works")]
    [InlineData("jump 3", "0 to 2")]
    [InlineData("jump -1", "-1")]
    [InlineData("back 3", "back 3")]
    [InlineData("back 3 miles", "back 3 miles")]
    public async Task What_cannot_be_is_refused_and_nothing_is_moved(string typed, string named)
    {
        var told = await Type("cell", typed, "show");
        Assert.Matches("^Refused: .+: found .+; allowed: .+\\. .+\\.\n$", told.Error);
        Assert.Contains(named, told.Error);
        Assert.Contains("(1, 2) on layer 0", told.Output.Split('\n').Last(line => line.StartsWith("at ")));
    }

    [Fact]
    public async Task What_never_comes_is_told_and_nothing_is_moved()
    {
        var told = await Type("cell", "to x = 99", "show");
        Assert.Contains("x = 99: that never comes from here. Nothing was moved", told.Output);
        Assert.Contains("(1, 2) on layer 0", told.Output.Split('\n').Last(line => line.StartsWith("at ")));
    }

    [Fact]
    public async Task A_jump_is_told_before_it_is_done()
    {
        var told = await Type("cell", "jump 1", "yes");
        var lines = told.Output.Split('\n').ToList();
        Assert.True(lines.IndexOf("4 cells of the present record left undone.") < lines.IndexOf("Type yes to jump; anything else leaves all as it is."));
        Assert.Contains("Record 1 comes next: 0 records are passed over.", lines);
    }

    [Fact]
    public async Task Past_the_end_nothing_is_done_and_it_is_told()
    {
        var told = await Type("to end", "cell");
        Assert.Equal("", told.Error);
        Assert.Contains("The job is at its end.", told.Output);
    }

    private static async Task<Ran> Type(params string[] lines)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var typed = new Queue<string>(lines);
        var report = new Report(new OutputWriter(output), error);
        var session = new StepSession(report, new Stepper(Job, Size), null, "", () => Task.FromResult(typed.TryDequeue(out var line) ? line : null));
        await session.RunAsync();
        return new Ran(0, output.ToString().ReplaceLineEndings("\n"), error.ToString().ReplaceLineEndings("\n"));
    }
}
