using System.Globalization;
using Board.Bench;
using Board.Emulator;

if (Toolchain.Missing is { } missing)
{
    Console.Error.WriteLine(missing);
    return 2;
}

var trials = 10_000;
if (args.Length > 1 || (args.Length == 1 && !int.TryParse(args[0], CultureInfo.InvariantCulture, out trials)) || trials < 1)
{
    Console.Error.WriteLine("Say nothing, or the number of trials of each stop: 1 or more.");
    return 2;
}

var isMet = true;
foreach (var figure in ProgramSize.Measure().Concat(StepTimes.Measure()).Concat(Latencies.Measure(trials)))
{
    Console.WriteLine(figure);
    isMet &= figure.IsMet;
}

return isMet ? 0 : 1;
