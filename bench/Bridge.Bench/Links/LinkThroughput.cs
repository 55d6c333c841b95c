using System.Globalization;
using Bridge.Wire;

namespace Bridge.Bench;

/// <summary>What the link makes of a line at 500 000 baud, beside one message at a time and the textbook's formulas for both.</summary>
internal static class LinkThroughput
{
    private static readonly TimeSpan Duration = TimeSpan.FromSeconds(300);
    private static readonly int Shipped = new LinkSettings().Window;
    private static readonly double[] Delays = [0, 2, 10, 50];
    private static readonly double[] Errors = [0, 0.001, 0.01, 0.05];

    public static IEnumerable<Figure> Measure()
    {
        var (message, status) = LinkTrial.Lengths;
        Tell($"500 000 baud, messages of {message:0.0} octets on the line, Status of {status:0}.");
        Tell($"Virtual time {Duration.TotalSeconds} s; per cent of the capacity.");
        Tell($"{"delay",8} {"errors",8} {"window",7} {"one",8} {"formula",8} {"go-back",8} {"formula",8} {"limit",8} {"shipped",8} {"times",6}");
        var figures = new List<Figure>();
        foreach (var milliseconds in Delays)
            foreach (var errors in Errors)
                figures.AddRange(OfLine(TimeSpan.FromMilliseconds(milliseconds), errors));
        return figures;
    }

    private static IEnumerable<Figure> OfLine(TimeSpan delay, double errors)
    {
        var window = LinkFormulas.WindowFor(delay);
        var (one, ours, shipped) = (Trial(1), Trial(window), Trial(Shipped));
        var formula = LinkFormulas.GoBack(window, delay, errors);
        var oneFormula = LinkFormulas.OneAtATime(delay, errors);
        double[] parts = [one, oneFormula, ours, formula, 1 - errors, shipped];
        var shown = string.Concat(parts.Select(part => string.Create(CultureInfo.InvariantCulture, $" {part * 100,8:0.0}")));
        Tell($"{delay.TotalMilliseconds,5:0} ms {errors * 100,6:0.0} % {window,7}{shown} {shipped / one,6:0.0}");
        var name = string.Create(CultureInfo.InvariantCulture, $"link {delay.TotalMilliseconds:0} ms {errors * 100:0.0} %");
        yield return new Figure($"{name} / formula", "%", Goal.AtLeast(97), [ours / formula * 100]);
        if (delay <= TimeSpan.FromMilliseconds(10) && errors is 0 or 0.01)
            yield return new Figure(name, "% of the line", Goal.AtLeast(errors == 0 ? 95 : 90), [shipped * 100]);
        if (delay == TimeSpan.FromMilliseconds(10))
            yield return new Figure($"{name} / one", "times", Goal.AtLeast(5), [shipped / one]);

        double Trial(int messages) => new LinkTrial(messages, delay, errors).Run(Duration);
    }

    private static void Tell(FormattableString text) => Console.WriteLine(FormattableString.Invariant(text));
}
