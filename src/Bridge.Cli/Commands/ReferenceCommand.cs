using System.CommandLine;
using System.Globalization;
using Bridge.Motion;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>bridge reference: the machine finds its zero, and tells how well it finds it again.</summary>
internal static class ReferenceCommand
{
    private const int MostTimes = 100;

    public static Command Make(Report report)
    {
        var hand = new HandArguments("What is referenced");
        var times = Arguments.Times(MostTimes,
            $"Reference so often, 1 to {MostTimes}, and tell each time how far the count was off: 5 or more show how well an endstop repeats.");
        var command = new ExampleCommand("reference",
            "Find the machine's zero with its endstops, slowly, and tell how far it was from where it was believed.",
            "bridge reference --machine examples/machines/cardboard-plotter.toml --times 3",
            "bridge reference --machine my-plotter.toml --device /dev/ttyACM0")
        {
            times,
        };
        hand.AddTo(command);
        command.SetAction((parsed, _) => HandSession.RunAsync(report, hand.Read(parsed), moves: true,
            (machine, _) => ReferenceAsync(report, machine, parsed.GetRequiredValue(times))));
        return command;
    }

    private static async Task<bool> ReferenceAsync(Report report, MachineHand hand, int times)
    {
        var places = new ReferencePlaces();
        for (var time = 1; time <= times; time++)
        {
            if (!await hand.ReferenceAsync().ConfigureAwait(false) || await hand.LostStepsAsync().ConfigureAwait(false) is not { } lost)
                return false;
            report.Line($"Referenced{(times > 1 ? $", {time} of {times}" : "")}: {LostStepsWords.Of(lost)}.");
            if (time > 1)
                places.Add(lost);
        }

        foreach (var (axis, mm) in places.Axes)
        {
            report.Line($"{axis}: {SpreadWords.Of(Spread.Of(mm), " mm")}");
            report.Line($"  To keep it: bridge calibrate repeat --machine FILE --axis {axis.ToString().ToLowerInvariant()} --readings "
                + string.Join(' ', mm.Select(place => place.ToString("0.####", CultureInfo.InvariantCulture))));
        }

        return true;
    }
}
