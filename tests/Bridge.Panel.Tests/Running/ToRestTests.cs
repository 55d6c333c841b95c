using Bridge.Wire;

namespace Bridge.Panel.Tests;

public sealed class ToRestTests
{
    [Theory]
    [InlineData("Hold", MachineCommand.Hold)]
    [InlineData("Hold Unhold", null)]
    [InlineData("Hold Unhold Hold", MachineCommand.Hold)]
    [InlineData("Hold Stop", MachineCommand.Stop)]
    [InlineData("Stop Hold", MachineCommand.Stop)]
    [InlineData("Stop Unhold", MachineCommand.Stop)]
    [InlineData("Stop Abort Stop", MachineCommand.Abort)]
    [InlineData("Abort Unhold Hold", MachineCommand.Abort)]
    public void Abort_outweighs_Stop_and_Stop_outweighs_Hold_which_alone_can_be_taken_back(string asked, MachineCommand? most) =>
        Assert.Equal(most, asked.Split(' ').Select(Enum.Parse<MachineCommand>).Aggregate((MachineCommand?)null, ToRest.Most));
}
