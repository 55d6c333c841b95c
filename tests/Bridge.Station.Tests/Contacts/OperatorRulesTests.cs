using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Station.Tests;

public class OperatorRulesTests
{
    private static readonly RunProgress Ready = new RunProgress() with { State = MachineState.Idle, AwaitsStart = true };
    private static readonly RunProgress HeldBack = new RunProgress() with { State = MachineState.Idle, IsHeldBack = true };
    private static readonly RunProgress Working = new RunProgress() with { State = MachineState.Execute };
    private static readonly RunProgress Held = new RunProgress() with { State = MachineState.Held };
    private static readonly ContactReading AtRest = new(true, true, false);
    private static readonly ContactReading Pressed = AtRest with { StartIsPressed = true };
    private static readonly ContactReading EStop = AtRest with { EStopIsClosed = false };
    private static readonly ContactReading HoldOpen = AtRest with { HoldIsClosed = false };

    [Fact]
    public void A_press_that_begins_when_the_machine_is_ready_starts_it_once()
    {
        var contacts = new Desk();
        Assert.Empty(contacts.For(100, AtRest, Ready));
        Assert.Equal([MachineCommand.Start], contacts.For(500, Pressed, Ready));
        Assert.Empty(contacts.For(100, AtRest, Working));
        Assert.Empty(contacts.For(500, Pressed, Working));
    }

    [Fact]
    public void A_button_that_was_pressed_before_starts_nothing_until_it_was_released()
    {
        var contacts = new Desk();
        Assert.Empty(contacts.For(100, Pressed, new RunProgress()));
        Assert.Empty(contacts.For(60_000, Pressed, Ready));
        Assert.Empty(contacts.For(100, AtRest, Ready));
        Assert.Equal([MachineCommand.Start], contacts.For(100, Pressed, Ready));
    }

    [Fact]
    public void A_held_machine_goes_on_by_a_press_of_its_own()
    {
        var contacts = new Desk();
        contacts.For(100, AtRest, Ready);
        Assert.Equal([MachineCommand.Start], contacts.For(100, Pressed, Ready));
        Assert.Empty(contacts.For(100, Pressed, Working));
        Assert.Empty(contacts.For(100, Pressed, Held)); // the same press
        contacts.For(100, AtRest, Held);
        Assert.Equal([MachineCommand.Unhold], contacts.For(100, Pressed, Held));
    }

    [Fact]
    public void An_open_estop_contact_asks_for_Abort_at_once_and_once()
    {
        foreach (var run in (RunProgress[])[new(), Ready, Working, Held])
        {
            var contacts = new Desk();
            contacts.For(10, AtRest, run);
            Assert.Equal([MachineCommand.Abort], contacts.For(2, EStop, run));
            Assert.Empty(contacts.For(1000, EStop with { StartIsPressed = true }, run));
        }
    }

    [Fact]
    public void A_contact_that_chatters_is_an_open_one_each_time()
    {
        var contacts = new Desk();
        var asked = Enumerable.Range(0, 20).SelectMany(turn => contacts.For(2, turn % 2 == 0 ? EStop : Pressed, Ready));
        Assert.Equal(Enumerable.Repeat(MachineCommand.Abort, 10), asked);
    }

    [Fact]
    public void Closing_the_estop_with_start_pressed_starts_nothing()
    {
        var contacts = new Desk();
        contacts.For(100, AtRest, Ready);
        contacts.For(100, EStop with { StartIsPressed = true }, Ready);
        Assert.Empty(contacts.For(5000, Pressed, Ready));
    }

    [Fact]
    public void An_open_hold_contact_holds_and_takes_precedence_of_start()
    {
        var contacts = new Desk();
        Assert.Equal([MachineCommand.Hold], contacts.For(100, HoldOpen, Working));
        Assert.Empty(contacts.For(100, HoldOpen, Held));
        Assert.Empty(contacts.For(100, HoldOpen with { StartIsPressed = true }, Held));
        Assert.Empty(contacts.For(1000, Pressed, Held));
        Assert.Equal([MachineCommand.Hold], contacts.For(100, HoldOpen, Working)); // let go on from elsewhere
    }

    [Fact]
    public void An_open_hold_contact_asks_again_until_the_machine_is_seen_to_hold()
    {
        var contacts = new Desk();
        Assert.Equal(Enumerable.Repeat(MachineCommand.Hold, 3), contacts.For(250, HoldOpen, Working)); // what it asked for may have been taken back
        Assert.True(contacts.IsAgain);
        Assert.Empty(contacts.For(1000, HoldOpen, Held));
        Assert.Equal([MachineCommand.Hold], contacts.For(50, HoldOpen, Working)); // let go on from elsewhere, and no other state was seen
        Assert.False(contacts.IsAgain);
    }

    [Fact]
    public void An_open_hold_contact_asks_in_each_state_out_of_which_the_machine_may_move()
    {
        MachineState[] atRest = [MachineState.Holding, MachineState.Held, MachineState.Stopping, MachineState.Aborting];
        foreach (var state in Enum.GetValues<MachineState>())
            Assert.Equal(!atRest.Contains(state), new Desk().For(2, HoldOpen, new RunProgress() with { State = state }) is [MachineCommand.Hold]);
        Assert.Empty(new Desk().For(1000, HoldOpen, Ready)); // it starts by the button alone, and not while the contact is open
    }

    [Fact]
    public void A_hold_before_the_start_is_taken_back_by_a_press_of_its_own()
    {
        var contacts = new Desk();
        contacts.For(100, AtRest, HeldBack);
        Assert.Equal([MachineCommand.Unhold], contacts.For(500, Pressed, HeldBack));
        Assert.Empty(contacts.For(500, Pressed, Ready));
        contacts.For(100, AtRest, Ready);
        Assert.Equal([MachineCommand.Start], contacts.For(500, Pressed, Ready));
    }

    [Theory]
    [InlineData(20, 100)]
    [InlineData(100, 20)]
    public void What_lasts_less_than_contacts_bounce_starts_nothing(int releasedMs, int pressedMs)
    {
        var contacts = new Desk();
        contacts.For(100, Pressed, Ready);
        contacts.For(releasedMs, AtRest, Ready);
        Assert.Empty(contacts.For(pressedMs, Pressed, Ready));
        Assert.Empty(contacts.For(20, AtRest, Ready));
    }

    [Fact]
    public void A_start_that_bounces_is_one_start()
    {
        var contacts = new Desk();
        contacts.For(100, AtRest, Ready);
        var asked = Enumerable.Range(0, 5).SelectMany(turn => contacts.For(2, turn % 2 == 0 ? Pressed : AtRest, Ready))
            .Concat(contacts.For(200, Pressed, Ready));
        Assert.Equal([MachineCommand.Start], asked);
    }

    /// <summary>Looks every 2 ms.</summary>
    private sealed class Desk
    {
        private readonly OperatorRules _rules = new();
        private TimeSpan _now;

        public bool IsAgain => _rules.IsAgain;

        public List<MachineCommand> For(int ms, ContactReading contacts, RunProgress run)
        {
            List<MachineCommand> asked = [];
            for (var end = _now + TimeSpan.FromMilliseconds(ms); _now < end; _now += TimeSpan.FromMilliseconds(2))
                if (_rules.Look(_now, contacts, run) is { } command)
                    asked.Add(command);
            return asked;
        }
    }
}
