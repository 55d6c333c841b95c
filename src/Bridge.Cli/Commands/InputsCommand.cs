using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Cli;

/// <summary>bridge inputs: the board's contacts as they are, live.</summary>
internal static class InputsCommand
{
    private static readonly TimeSpan Interval = TimeSpan.FromMilliseconds(50);

    private static readonly (BoardInputs Input, string Name, string On, string Off)[] Contacts =
    [
        (BoardInputs.EStopOpen, "e-stop", "OPEN (pressed, or its wire cut)", "closed"),
        (BoardInputs.EndstopX, "endstop X", "reached", "free"),
        (BoardInputs.EndstopY, "endstop Y", "reached", "free"),
        (BoardInputs.EndstopZ, "endstop Z", "reached", "free"),
        (BoardInputs.StartButton, "start button", "pressed", "up"),
    ];

    public static System.CommandLine.Command Make(Report report)
    {
        var hand = new HandArguments("Whose contacts are shown");
        var once = Arguments.Flag("--once", "Tell them once and end; else every change is told until Ctrl-C.");
        var command = new ExampleCommand("inputs", "Show the endstops, the e-stop and the start button as the board sees them. Nothing moves.",
            "bridge inputs --machine my-plotter.toml --device /dev/ttyACM0",
            "bridge inputs --machine examples/machines/cardboard-plotter.toml --once")
        {
            once,
        };
        hand.AddTo(command);
        command.SetAction((parsed, _) =>
        {
            var isOnce = parsed.GetValue(once);
            return HandSession.RunAsync(report, hand.Read(parsed), moves: false, (machine, _) => WatchAsync(report, machine, isOnce), isLive: !isOnce);
        });
        return command;
    }

    private static async Task<bool> WatchAsync(Report report, MachineHand hand, bool once)
    {
        var contacts = Contacts.Where(contact => hand.Machine.Z is not null || contact.Input != BoardInputs.EndstopZ).ToArray();
        var before = hand.Status!.Value.Inputs;
        report.Facts([.. contacts.Select(contact => (contact.Name, WordOf(contact, before)))]);
        if (!once)
            report.Line("Press and release each by hand and see it change here. Ctrl-C ends.");
        while (!once && !hand.IsInterrupted)
        {
            if (!await hand.LookAsync(Interval).ConfigureAwait(false))
                return false;
            var now = hand.Status!.Value.Inputs;
            foreach (var contact in contacts.Where(contact => ((now ^ before) & contact.Input) != 0))
                report.Line($"{contact.Name}: {WordOf(contact, now)}");
            if (BothAtOnce(hand, now, before) is { } warning)
                report.Line(warning);
            before = now;
        }

        return true;
    }

    private static string WordOf((BoardInputs Input, string Name, string On, string Off) contact, BoardInputs inputs) =>
        inputs.HasFlag(contact.Input) ? contact.On : contact.Off;

    private static string? BothAtOnce(MachineHand hand, BoardInputs now, BoardInputs before)
    {
        var all = BoardInputs.EndstopX | BoardInputs.EndstopY | (hand.Machine.Z is null ? BoardInputs.None : BoardInputs.EndstopZ);
        return (now & all) == all && (before & all) != all
            ? "All endstops read as reached at once: a common wire may be cut, or their supply is missing."
            : null;
    }
}
