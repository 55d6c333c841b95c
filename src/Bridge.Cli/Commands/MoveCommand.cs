using System.CommandLine;
using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>bridge move: the carriage is moved by keys or to places.</summary>
internal static class MoveCommand
{
    public static Command Make(Report report)
    {
        var hand = new HandArguments("What is moved");
        var to = new Option<string[]>("--to")
        {
            Description = "Go to a cell, X,Y or X,Y,LAYER, at the machine's own speed; in mm where the unit stands behind each, as in 20mm,35mm. "
                + "May be given more than once: at a terminal each goes on with Enter. Without it the keys move the machine.",
            HelpName = "PLACE",
            AllowMultipleArgumentsPerToken = true,
        };
        var command = new ExampleCommand("move", "Reference the machine, then move it: slowly while a key is held, a cell at a press, or to a place.",
            "bridge move --machine my-plotter.toml --device /dev/ttyACM0",
            "bridge move --machine examples/machines/cardboard-plotter.toml --to 0,0 12,7 60mm,35mm")
        {
            to,
        };
        hand.AddTo(command);
        command.SetAction((parsed, _) => MoveAsync(report, hand.Read(parsed), parsed.GetValue(to) ?? []));
        return command;
    }

    private static Task<int> MoveAsync(Report report, HandOptions options, string[] to)
    {
        var machine = MachineInput.Read(options.Machine, out _);
        var places = to.Select(word => MachinePlace.Parse("--to", word, machine)).ToList();
        if (places.Count == 0 && (!report.IsAttended || options.Unattended))
            throw new RefusedException("--to", "nothing, and nobody at a terminal", "a place, or a terminal for the keys", "Give --to X,Y.");
        return HandSession.RunAsync(report, options, moves: true, async (hand, device) =>
        {
            if (!await hand.ReferenceAsync().ConfigureAwait(false))
                return false;
            report.Line("Referenced.");
            var run = new HandRun(hand, device, RunNumber.New());
            return places.Count == 0
                ? await new MoveByKeys(report, hand, device, run, HandKeys.OfTerminal()).RunAsync().ConfigureAwait(false)
                : await GoToAllAsync(report, hand, device, run, places, report.IsAttended && !options.Unattended).ConfigureAwait(false);
        }, isLive: places.Count == 0);
    }

    private static async Task<bool> GoToAllAsync(
        Report report, MachineHand hand, DeviceDialogue device, HandRun run, List<Position> places, bool waits)
    {
        var keys = HandKeys.OfTerminal();
        foreach (var (index, place) in places.Index())
        {
            if (!await run.GoAsync(place).ConfigureAwait(false))
                return false;
            keys.Forget(); // an Enter that was pressed twice is no leave for the way after this one
            var isLast = index == places.Count - 1;
            report.Line($"At cell ({place.Cell.X}, {place.Cell.Y}), layer {place.Layer}."
                + (waits && !isLast ? " Enter goes on to the next place." : ""));
            if (waits && !isLast)
                await EnterAsync(hand, device, keys).ConfigureAwait(false);
        }

        return true;
    }

    private static async Task EnterAsync(MachineHand hand, DeviceDialogue device, HandKeys keys)
    {
        bool GoesOn() => !hand.IsInterrupted && hand.Trouble is null;
        var key = await keys.NextAsync(GoesOn, device.PassAsync).ConfigureAwait(false);
        while (key is { Key: not ConsoleKey.Enter })
            key = await keys.NextAsync(GoesOn, device.PassAsync).ConfigureAwait(false);
    }
}
