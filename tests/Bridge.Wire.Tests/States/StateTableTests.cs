namespace Bridge.Wire.Tests;

// ISA-TR88.00.02, as in the OPC 30050 node set (2015 edition); Hold in Suspended is a default of the 2022 edition.
public class StateTableTests
{
    [Fact]
    public void Every_command_in_every_state_leads_where_the_golden_table_says()
    {
        var seen = 0;
        foreach (var row in Vectors.Read("states.txt"))
        {
            var (state, command, next) = ((MachineState)byte.Parse(row[0]), (MachineCommand)byte.Parse(row[1]), (MachineState)byte.Parse(row[2]));
            Assert.Equal((row[3], next), (row[3], StateTable.Next(state, command) ?? MachineState.Undefined));
            Assert.Equal(row[3], $"{state} {command}: {(next == 0 ? "refused" : next)}");
            seen++;
        }
        Assert.Equal(17 * 10, seen);
    }

    [Fact]
    public void Every_state_completes_into_what_the_golden_table_says()
    {
        var rows = Vectors.Read("states-complete.txt").ToArray();
        Assert.Equal(17, rows.Length);
        foreach (var row in rows)
        {
            var (state, next) = ((MachineState)byte.Parse(row[0]), (MachineState)byte.Parse(row[1]));
            Assert.Equal((row[3], next), (row[3], StateTable.Completed(state) ?? MachineState.Undefined));
            Assert.Equal((row[3], row[2] == "1"), (row[3], StateTable.IsActing(state)));
            Assert.StartsWith($"{state}: ", row[3]);
        }
    }

    [Fact]
    public void Ten_states_act() =>
        Assert.Equal(10, Enum.GetValues<MachineState>().Count(StateTable.IsActing));

    [Fact]
    public void From_every_state_abort_leads_to_aborted_or_has_already()
    {
        foreach (var state in Enum.GetValues<MachineState>().Where(StateTable.IsDefined))
        {
            var next = StateTable.Next(state, MachineCommand.Abort) ?? state;
            Assert.Contains(next, new[] { MachineState.Aborting, MachineState.Aborted });
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(18)]
    [InlineData(255)]
    public void What_is_no_state_leads_nowhere(byte number)
    {
        Assert.False(StateTable.IsDefined((MachineState)number));
        Assert.Null(StateTable.Completed((MachineState)number));
        for (var command = 0; command < 256; command++)
            Assert.Null(StateTable.Next((MachineState)number, (MachineCommand)command));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(11)]
    [InlineData(255)]
    public void What_is_no_command_is_refused_everywhere(byte number)
    {
        for (var state = 0; state < 256; state++)
            Assert.Null(StateTable.Next((MachineState)state, (MachineCommand)number));
    }
}
