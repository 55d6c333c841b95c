using System.Globalization;
using Bridge.Wire;
using Bridge.Wire.Tests;

namespace Bridge.Bench;

/// <summary>What the link makes of a line at 500 000 baud, beside one message at a time, selective repeat, and the textbook's formulas.</summary>
internal static class LinkThroughput
{
    private const double OctetsPerSecond = 50_000;
    private static readonly TimeSpan Duration = TimeSpan.FromSeconds(300);
    private static readonly int Shipped = new LinkSettings().Window;
    private static readonly BoardPace Pace = BoardPace.Firmware;
    private static readonly double[] Delays = [0, 2, 10, 50];
    private static readonly double[] Errors = [0, 0.001, 0.01, 0.05];

    private static readonly string[] Columns =
        ["delay", "errors", "window", "one", "formula", "go-back", "formula", "selective", "twice N", "limit", "shipped", "formula", "times"];

    public static IEnumerable<Figure> Measure()
    {
        var (message, status) = LinkTrial.Lengths;
        Tell($"500 000 baud, messages of {message:0.0} octets on the line, Status of {status:0}; a turn of the board takes {Pace.Turn.TotalMicroseconds} us.");
        Tell($"Virtual time {Duration.TotalSeconds} s; per cent of the capacity.");
        Console.WriteLine(string.Concat(Columns.Select(column => $"{column,10}")));
        var figures = new List<Figure>();
        foreach (var milliseconds in Delays)
            foreach (var errors in Errors)
                figures.AddRange(OfLine(TimeSpan.FromMilliseconds(milliseconds), errors));
        return figures;
    }

    private static IEnumerable<Figure> OfLine(TimeSpan delay, double errors)
    {
        var (message, status) = LinkTrial.Lengths;
        var formulas = new LinkFormulas(message, 0, status * (Pace.Octet / TrialLine<byte[]>.Octet), OctetsPerSecond, delay + Pace.Turn / 2 + Pace.Composing);
        var window = formulas.LeastWindow;
        var (one, goBack, shipped) = (Trial(1), Trial(window), Trial(Shipped));
        var (oneFormula, goBackFormula, shippedFormula) = (formulas.OneAtATime(errors), formulas.GoBack(window, errors), formulas.GoBack(Shipped, errors));
        double[] parts =
            [one, oneFormula, goBack, goBackFormula, Selective(window), Selective(2 * window), 1 - errors, shipped, shippedFormula];
        var shown = string.Concat(parts.Select(part => string.Create(CultureInfo.InvariantCulture, $"{part * 100,10:0.0}")));
        Tell($"{delay.TotalMilliseconds,7:0} ms{errors * 100,8:0.0} %{window,10}{shown}{shipped / one,10:0.0}");
        var name = string.Create(CultureInfo.InvariantCulture, $"link {delay.TotalMilliseconds:0} ms {errors * 100:0.0} %");
        yield return new Figure($"{name} / formula, least window", "%", Goal.AtLeast(97), [goBack / goBackFormula * 100]);
        yield return new Figure($"{name} / formula, shipped", "%", Goal.AtLeast(97), [shipped / shippedFormula * 100]);
        if (delay <= TimeSpan.FromMilliseconds(10) && errors is 0 or 0.01)
            yield return new Figure(name, "% of the line", Goal.AtLeast(errors == 0 ? 95 : 90), [shipped * 100]);
        if (delay == TimeSpan.FromMilliseconds(10))
            yield return new Figure($"{name} / one", "times", Goal.AtLeast(5), [shipped / one]);

        double Trial(int messages) => new LinkTrial(messages, delay, errors, Pace).Run(Duration);
        double Selective(int messages) => new SelectiveTrial(messages, delay, errors, Pace).Run(Duration);
    }

    private static void Tell(FormattableString text) => Console.WriteLine(FormattableString.Invariant(text));
}
