using System.Globalization;
using Board.Bench;
using Board.Emulator;

if (Toolchain.Missing is { } missing)
{
    Console.Error.WriteLine(missing);
    return 2;
}

var trials = 10_000;
var onlyLink = args is ["link"];
if (!onlyLink && (args.Length > 1 || (args.Length == 1 && !int.TryParse(args[0], CultureInfo.InvariantCulture, out trials)) || trials < 1))
{
    Console.Error.WriteLine("Say nothing, the number of trials of each stop (1 or more), or: link.");
    return 2;
}

var figures = LinkFilling.Measure();
if (!onlyLink)
    figures = ProgramSize.Measure().Concat(StepTimes.Measure()).Concat(Latencies.Measure(trials)).Concat(figures);
var isMet = true;
foreach (var figure in figures)
{
    Console.WriteLine(figure);
    isMet &= figure.IsMet;
}

return isMet ? 0 : 1;
