using System.Globalization;
using Bridge.Jobs;

namespace Bridge.Mock;

/// <summary>
/// Faults as text: words with values, divided by commas. `drop`, `flip`, `duplicate` and `late` take a chance from 0 to 1 for
/// each frame, on both ways, or on one with `-to-device` or `-to-host`; `late-ms` says how late. `estop-at`, `cut-at`: a
/// number of worked cells. `estop-released-after`: seconds. `endstop-open`, `endstop-closed`: an axis, or axis:cells. `skip`:
/// axis:cells:steps. `silent` stands alone.
/// </summary>
public static class FaultText
{
    private const int MostWords = 64;
    private const double DefaultLateMs = 20;

    private static readonly Dictionary<string, (string Value, Func<MockFaults, Word, MockFaults> Apply)> Words = new()
    {
        ["drop"] = ("CHANCE", (faults, word) => BothWays(faults, noise => noise with { Drop = word.Chance() })),
        ["drop-to-device"] = ("CHANCE", (faults, word) => faults with { ToDevice = faults.ToDevice with { Drop = word.Chance() } }),
        ["drop-to-host"] = ("CHANCE", (faults, word) => faults with { ToHost = faults.ToHost with { Drop = word.Chance() } }),
        ["flip"] = ("CHANCE", (faults, word) => BothWays(faults, noise => noise with { Flip = word.Chance() })),
        ["flip-to-device"] = ("CHANCE", (faults, word) => faults with { ToDevice = faults.ToDevice with { Flip = word.Chance() } }),
        ["flip-to-host"] = ("CHANCE", (faults, word) => faults with { ToHost = faults.ToHost with { Flip = word.Chance() } }),
        ["duplicate"] = ("CHANCE", (faults, word) => BothWays(faults, noise => noise with { Duplicate = word.Chance() })),
        ["duplicate-to-device"] = ("CHANCE", (faults, word) => faults with { ToDevice = faults.ToDevice with { Duplicate = word.Chance() } }),
        ["duplicate-to-host"] = ("CHANCE", (faults, word) => faults with { ToHost = faults.ToHost with { Duplicate = word.Chance() } }),
        ["late"] = ("CHANCE", (faults, word) => BothWays(faults, noise => noise with { Late = word.Chance() })),
        ["late-to-device"] = ("CHANCE", (faults, word) => faults with { ToDevice = faults.ToDevice with { Late = word.Chance() } }),
        ["late-to-host"] = ("CHANCE", (faults, word) => faults with { ToHost = faults.ToHost with { Late = word.Chance() } }),
        ["late-ms"] = ("MS", (faults, word) => BothWays(faults, noise => noise with { LateBy = TimeSpan.FromMilliseconds(word.Number(0, 10_000)) })),
        ["estop-at"] = ("CELLS", (faults, word) => faults with { EStopAt = word.Cells() }),
        ["estop-released-after"] = ("SECONDS", (faults, word) => faults with { EStopReleasedAfter = TimeSpan.FromSeconds(word.Number(0, 3600)) }),
        ["endstop-open"] = ("AXIS[:CELLS]", (faults, word) =>
            faults with { Endstops = [.. faults.Endstops, word.Endstop(EndstopFault.StuckOpen)] }),
        ["endstop-closed"] = ("AXIS[:CELLS]", (faults, word) =>
            faults with { Endstops = [.. faults.Endstops, word.Endstop(EndstopFault.StuckClosed)] }),
        ["skip"] = ("AXIS:CELLS:STEPS", (faults, word) => faults with { Skips = [.. faults.Skips, word.Skip()] }),
        ["cut-at"] = ("CELLS", (faults, word) => faults with { CutAt = word.Cells() }),
        ["silent"] = ("", (faults, word) => faults with { IsSilent = word.StandsAlone() }),
    };

    /// <summary>The words there are with the form of their values, in the order of the alphabet.</summary>
    public static IEnumerable<string> Forms => Words.OrderBy(word => word.Key, StringComparer.Ordinal)
        .Select(word => word.Value.Value.Length == 0 ? word.Key : $"{word.Key}={word.Value.Value}");

    /// <summary>Reads faults; an empty text is none.</summary>
    /// <exception cref="RefusedException">A word is unknown, stands twice where it may not, or has a value outside its range.</exception>
    public static MockFaults Parse(string text)
    {
        var faults = BothWays(MockFaults.None, noise => noise with { LateBy = TimeSpan.FromMilliseconds(DefaultLateMs) });
        var words = text.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        if (words.Length > MostWords)
            throw new RefusedException("faults", $"{words.Length} words", $"up to {MostWords}", "Leave some out.");
        var given = new HashSet<string>();
        foreach (var written in words)
        {
            var parts = written.Split('=', 2, StringSplitOptions.TrimEntries);
            var word = new Word(parts[0], parts.Length == 2 ? parts[1] : null);
            if (!Words.TryGetValue(word.Name, out var known))
                throw new RefusedException("faults", $"\"{Short(word.Name)}\"", string.Join(", ", Forms), "Correct the word.");
            if (!given.Add(word.Name) && !MayRepeat(word.Name))
                throw new RefusedException("faults", $"\"{word.Name}\" twice", "each word once, but for skip and endstop-*", "Leave one out.");
            faults = known.Apply(faults, word);
        }

        if (given.Contains("late-ms") && faults.ToDevice.Late == 0 && faults.ToHost.Late == 0)
            throw new RefusedException("faults, late-ms", "no frame that is ever late", "late=CHANCE beside it", "Say how often a frame is late.");
        return faults;
    }

    private static bool MayRepeat(string name) => name is "skip" or "endstop-open" or "endstop-closed";

    private static MockFaults BothWays(MockFaults faults, Func<LineNoise, LineNoise> change) =>
        faults with { ToDevice = change(faults.ToDevice), ToHost = change(faults.ToHost) };

    private static string Short(string text) => text.Length <= 40 ? text : text[..40] + "...";

    /// <summary>One word and its value.</summary>
    private readonly record struct Word(string Name, string? Value)
    {
        public double Chance() => Number(0, 1);

        public double Number(double least, double most) => AsNumber(Value, least, most)
            ?? throw Refused(string.Create(CultureInfo.InvariantCulture, $"a number from {least} to {most}"));

        public long Cells() => AsCells(Value, 1) ?? throw Refused("a number of worked cells, 1 and up");

        public EndstopFailure Endstop(EndstopFault fault)
        {
            var parts = (Value ?? "").Split(':');
            return AsAxis(parts[0]) is { } axis && parts.Length <= 2 && AsCells(parts.Length == 2 ? parts[1] : "0", 0) is { } cells
                ? new EndstopFailure(axis, fault, cells)
                : throw Refused("x, y or z, or an axis and a number of worked cells, such as x:20");
        }

        public SkippedSteps Skip()
        {
            var parts = (Value ?? "").Split(':');
            return parts.Length == 3 && AsAxis(parts[0]) is { } axis && AsCells(parts[1], 1) is { } cells
                && AsNumber(parts[2], -1_000_000, 1_000_000) is { } steps
                ? new SkippedSteps(axis, cells, steps)
                : throw Refused("axis, number of worked cells and steps up to a million, such as x:20:-80");
        }

        public bool StandsAlone() => Value is null ? true : throw Refused("the word alone");

        private static double? AsNumber(string? text, double least, double most) =>
            double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && number >= least && number <= most
                ? number : null;

        private static long? AsCells(string? text, long least) =>
            long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var cells) && cells >= least ? cells : null;

        private static AxisName? AsAxis(string text) => text switch { "x" => AxisName.X, "y" => AxisName.Y, "z" => AxisName.Z, _ => null };

        private RefusedException Refused(string allowed) =>
            new($"faults, {Name}", Value is null ? "no value" : $"\"{Short(Value)}\"", allowed, "Correct the value.");
    }
}
