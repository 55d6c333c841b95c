using System.CommandLine;
using System.CommandLine.Parsing;
using System.Security.Cryptography;
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
        var command = new ExampleCommand("heads", "Reference the machine and try its heads on a cell: a pen is lowered and lifted, a dot is made.",
            "bridge heads --machine my-plotter.toml --device /dev/ttyACM0 --head a --at 3,4 --times 5",
            "bridge heads --machine examples/machines/cardboard-plotter.toml")
        {
            at, head, times,
        };
        hand.AddTo(command);
        command.SetAction((parsed, _) => TryAsync(
            report, hand.Read(parsed), parsed.GetRequiredValue(at), parsed.GetValue(head), parsed.GetRequiredValue(times)));
        return command;
    }

    private static Task<int> TryAsync(Report report, HandOptions options, string at, Head? only, int times)
    {
        var machine = MachineInput.Read(options.Machine, out _);
        var place = MachinePlace.Parse("--at", at, machine);
        if (only == Head.B && machine.B is null)
            throw new RefusedException("--head", "b", "the heads of the machine file", $"{machine.Name} has head a alone.");
        Head[] heads = only is { } one ? [one] : machine.B is null ? [Head.A] : [Head.A, Head.B];
        return HandSession.RunAsync(report, options, moves: true, async (hand, device) =>
        {
            if (!await hand.ReferenceAsync().ConfigureAwait(false))
                return false;
            var run = new HandRun(hand, device, (ushort)RandomNumberGenerator.GetInt32(1, ushort.MaxValue + 1));
            foreach (var head in heads)
                if (!await TryAsync(report, machine, run, place with { Head = head }, times).ConfigureAwait(false))
                    return false;
            return true;
        });
    }

    private static async Task<bool> TryAsync(Report report, Machine machine, HandRun run, Position place, int times)
    {
        if (!await run.GoAsync(place).ConfigureAwait(false))
            return false;
        var (name, does) = (place.Head == Head.A ? "a" : "b", machine.Tool(place.Head) is HeadTool.Pen ? "lowered and lifted" : "made a dot");
        for (var time = 0; time < times; time++)
        {
            if (!await run.WorkAsync(place.Head).ConfigureAwait(false)) // a machine that then waits for records lifts its pen
                return false;
            report.Line($"Head {name} at ({place.Cell.X}, {place.Cell.Y}), layer {place.Layer}: {does}.");
        }

        return true;
    }

    private static Head? ParseHead(ArgumentResult written) => written.Tokens switch
    {
        [{ Value: "a" }] => Head.A,
        [{ Value: "b" }] => Head.B,
        _ => Arguments.Refuse<Head?>(written, "a or b"),
    };
}
