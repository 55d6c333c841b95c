using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>bridge heads: each head is tried on one cell.</summary>
internal static class HeadsCommand
{
    private const int MostTimes = 20;

    public static Command Make(Report report)
    {
        var hand = new HandArguments("Whose heads are tried");
        var at = new Option<string>("--at") { Description = "Where: X,Y or X,Y,LAYER.", HelpName = "PLACE", DefaultValueFactory = _ => "0,0" };
        var head = new Option<Head?>("--head")
        {
            Description = "Only this head; each one of the machine if not given.",
            HelpName = "a|b",
            CustomParser = ParseHead,
        };
        var times = Arguments.Times(MostTimes, $"How often each, 1 to {MostTimes}.");
        var hold = new Option<int?>("--hold")
        {
            Description = $"Keep a pen down for so many seconds, 1 to {PenHold.Longest.TotalSeconds:0}, or until a key is pressed: to adjust its height.",
            HelpName = "SECONDS",
            CustomParser = written => int.TryParse(Arguments.Word(written), NumberStyles.None, CultureInfo.InvariantCulture, out var seconds)
                && seconds >= 1 && seconds <= PenHold.Longest.TotalSeconds
                ? seconds
                : Arguments.Refuse<int?>(written, $"1 to {PenHold.Longest.TotalSeconds:0}"),
        };
        var command = new ExampleCommand("heads", "Reference the machine and try its heads on a cell: a pen is lowered and lifted, a dot is made.",
            "bridge heads --machine my-plotter.toml --device /dev/ttyACM0 --head a --at 3,4 --times 5",
            "bridge heads --machine my-plotter.toml --device /dev/ttyACM0 --head b --at 7,7 --hold 60",
            "bridge heads --machine examples/machines/cardboard-plotter.toml")
        {
            at, head, times, hold,
        };
        hand.AddTo(command);
        command.SetAction((parsed, _) => TryAsync(report, hand.Read(parsed), parsed.GetRequiredValue(at), parsed.GetValue(head),
            parsed.GetRequiredValue(times), parsed.GetValue(hold) is { } seconds ? TimeSpan.FromSeconds(seconds) : null));
        return command;
    }

    private static Task<int> TryAsync(Report report, HandOptions options, string at, Head? only, int times, TimeSpan? hold)
    {
        var machine = MachineInput.Read(options.Machine, out _);
        var place = MachinePlace.Parse("--at", at, machine);
        if (only == Head.B && machine.B is null)
            throw new RefusedException("--head", "b", "the heads of the machine file", $"{machine.Name} has head a alone.");
        Head[] heads = only is { } one ? [one] : machine.B is null ? [Head.A] : [Head.A, Head.B];
        foreach (var head in heads.Where(head => hold is not null && machine.Tool(head) is not HeadTool.Pen))
            throw new RefusedException("--hold", $"head {RecordWords.Name(head)}, which makes dots", "a pen", "Name a head with a pen by --head.");
        var isWatched = hold is not null && report.IsAttended && !options.Unattended;
        return HandSession.RunAsync(report, options, moves: true, async (hand, device) =>
        {
            if (hold is not null)
                hand.Machine = PenHold.On(machine);
            if (!await hand.ReferenceAsync().ConfigureAwait(false))
                return false;
            var run = new HandRun(hand, device, RunNumber.New());
            foreach (var head in heads)
                if (!await run.GoAsync(place with { Head = head }).ConfigureAwait(false) || !await (hold is { } atMost
                    ? HoldAsync(report, machine, new PenDown(hand, device, run, isWatched ? HandKeys.OfTerminal() : null), run.At, times, atMost)
                    : TryAsync(report, machine, run, run.At, times)).ConfigureAwait(false))
                    return false;
            return true;
        }, isLive: isWatched);
    }

    private static async Task<bool> HoldAsync(Report report, Machine machine, PenDown pen, Position place, int times, TimeSpan atMost)
    {
        for (var time = 0; time < times; time++)
        {
            report.Line($"{Words(place)}: down, for {atMost.TotalSeconds:0} s at most. Any key lifts it, within a second.");
            if (!await pen.HoldAsync(place.Head, (HeadTool.Pen)machine.Tool(place.Head)!, atMost).ConfigureAwait(false))
                return false;
            report.Line($"{Words(place)}: up.");
        }

        return true;
    }

    private static async Task<bool> TryAsync(Report report, Machine machine, HandRun run, Position place, int times)
    {
        var does = machine.Tool(place.Head) is HeadTool.Pen ? "lowered and lifted" : "made a dot";
        for (var time = 0; time < times; time++)
        {
            if (!await run.WorkAsync(place.Head).ConfigureAwait(false)) // a machine that then waits for records lifts its pen
                return false;
            report.Line($"{Words(place)}: {does}.");
        }

        return true;
    }

    private static string Words(Position place) =>
        $"Head {RecordWords.Name(place.Head)} at ({place.Cell.X}, {place.Cell.Y}), layer {place.Layer}";

    private static Head? ParseHead(ArgumentResult written) => written.Tokens switch
    {
        [{ Value: "a" }] => Head.A,
        [{ Value: "b" }] => Head.B,
        _ => Arguments.Refuse<Head?>(written, "a or b"),
    };
}
