using Bridge.Wire;

namespace Bridge.Mock;

/// <summary>What the start button does where no host has spoken since the reset.</summary>
internal sealed partial class Controller
{
    private const ushort RunOfButton = 0xFFFF;

    private readonly StartButton _button = new();

    /// <summary>Whether a host has opened a session: the button is only told then.</summary>
    public bool HasHost { get; set; }

    private void Press()
    {
        switch (State)
        {
            case MachineState.Aborted:
                Command(MachineCommand.Clear);
                break;
            case MachineState.Stopped or MachineState.Complete:
                Show(ResetForStored());
                break;
            case MachineState.Idle:
                Show(StartStored());
                break;
            case MachineState.Held:
                Command(MachineCommand.Unhold);
                break;
        }
    }

    private Answer ResetForStored()
    {
        var answer = Store.FindSetup(_now, out var setup);
        if (answer != Answer.Accepted)
            return answer;
        (_setup, _referenced, _acts) = (setup!, [], null);
        return Command(MachineCommand.Reset);
    }

    private Answer StartStored()
    {
        var answer = BeginStored(RunOfButton);
        return answer == Answer.Accepted ? Command(MachineCommand.Start) : answer;
    }

    /// <summary>A press that comes to nothing shows in the cause; one that finds the store busy is not heard.</summary>
    private void Show(Answer answer)
    {
        Cause = answer switch
        {
            Answer.Accepted or Answer.StoreBusy => Cause,
            Answer.StoreBlank => StateCause.StoreBlank,
            Answer.StoreForeign => StateCause.StoreForeign,
            Answer.BadRecord => StateCause.BadRecord,
            _ => StateCause.StoreDamaged,
        };
    }
}
