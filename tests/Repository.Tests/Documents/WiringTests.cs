using System.Text.RegularExpressions;

namespace Repository.Tests;

/// <summary>The wiring page, its drawing and the firmware's header name the same pins.</summary>
public partial class WiringTests
{
    private const string Drawings = "safety/drawings";

    // What stands behind each definition of the header, from its lowest bit up.
    private static readonly Dictionary<string, string[]> Signals = new()
    {
        ["STEPS"] = ["step X", "step Y", "step Z"],
        ["HEAD_A"] = ["head a"],
        ["CONTACTS"] = ["endstop X", "endstop Y", "endstop Z", "start button"],
        ["E_STOP"] = ["e-stop"],
        ["HEAD_B"] = ["head b"],
        ["DISABLE"] = ["enable"],
        ["UP_SHIFT"] = ["direction X", "direction Y", "direction Z"],
    };

    // The chip's own serial port: its data sheet has the pins, and no definition.
    private static readonly Dictionary<string, string> Serial = new() { ["D0"] = "serial in", ["D1"] = "serial out" };

    private static readonly string Header = Checkout.Read("firmware-protocol/reference/ports/atmega328p/pins.h");
    private static readonly string Page = Checkout.Read("safety/WIRING.md");
    private static readonly string Drawing = Checkout.Read($"{Drawings}/signals.svg");

    [Fact]
    public void The_pins_of_the_wiring_page_are_those_of_the_firmware() => Findings.AssertNone(MistakesOfPage(Header, Page));

    [Fact]
    public void The_pins_of_the_drawing_are_those_of_the_firmware()
    {
        Findings.AssertNone(MistakesOfDrawing(Header, Drawing));
        var eStop = Defined(Header).Single(pin => pin.Value == "e-stop").Key;
        Assert.Equal([eStop], Texts(Checkout.Read($"{Drawings}/power.svg")).Where(text => Pin().IsMatch(text)));
    }

    [Theory]
    [InlineData("| B0 | out | step X |", "| B0 | out | step Y |", "B0 is step Y, not step X")]
    [InlineData("| C1 | in | endstop X |", "| C1 | out | endstop X |", "C1 is out, not in")]
    [InlineData("| D7 | out | direction Z |", "| D6 | out | direction Z |", "D6 is there twice")]
    [InlineData("| D2 | in | e-stop |", "| D2, in, e-stop |", "D2 is missing")]
    [InlineData("| D1 | out | serial out |", "| D1 | out | serial in |", "D1 is serial in, not serial out")]
    [InlineData("| C4 | in | start button |", "| C5 | in | start button |", "C5 is no pin of the firmware")]
    public void A_mistake_of_the_page_is_seen(string right, string wrong, string mistake)
    {
        Assert.Contains(right, Page);
        Assert.Contains(mistake, MistakesOfPage(Header, Page.Replace(right, wrong)));
    }

    [Fact]
    public void A_pin_that_the_firmware_moves_is_seen_on_the_page_and_in_the_drawing()
    {
        var moved = Header.Replace("#define PIN_E_STOP _BV(2) ", "#define PIN_E_STOP _BV(4) ")
            .Replace("#define PIN_DISABLE _BV(4) ", "#define PIN_DISABLE _BV(2) ");
        Assert.NotEqual(Header, moved);
        Assert.Contains("D2 is e-stop, not enable", MistakesOfPage(moved, Page));
        Assert.Contains("D2 enable is not drawn", MistakesOfDrawing(moved, Drawing));
    }

    [Fact]
    public void Every_drawing_has_a_title_and_words_for_who_cannot_see_it_and_colours_for_light_and_dark()
    {
        var drawings = Checkout.Under(Drawings, ".svg").ToList();
        Assert.NotEmpty(drawings);
        foreach (var drawing in drawings.Select(Checkout.Read))
        {
            Assert.Matches("<svg [^>]*role=\"img\" aria-labelledby=\"title desc\"", drawing);
            Assert.Matches("<title id=\"title\">[^<]{10,}</title>", drawing);
            Assert.Matches("<desc id=\"desc\">[^<]{80,}</desc>", drawing);
            Assert.Contains("prefers-color-scheme: dark", drawing);
        }
    }

    private static List<string> MistakesOfPage(string header, string page)
    {
        var mistakes = new List<string>();
        var rows = PageRow().Matches(page).Select(row => row.Groups)
            .Select(row => (Pin: row["pin"].Value, Way: row["way"].Value, Signal: row["signal"].Value)).ToList();
        var signals = Defined(header).Concat(Serial).ToDictionary();
        var ways = Ways(header);
        mistakes.AddRange(rows.CountBy(row => row.Pin).Where(count => count.Value > 1).Select(count => $"{count.Key} is there twice"));
        mistakes.AddRange(signals.Keys.Except(rows.Select(row => row.Pin)).Select(pin => $"{pin} is missing"));
        foreach (var (pin, way, signal) in rows)
            if (!signals.TryGetValue(pin, out var right))
                mistakes.Add($"{pin} is no pin of the firmware");
            else if (signal != right)
                mistakes.Add($"{pin} is {signal}, not {right}");
            else if (ways.TryGetValue(pin, out var rightWay) && way != rightWay)
                mistakes.Add($"{pin} is {way}, not {rightWay}");
        return mistakes;
    }

    private static IEnumerable<string> MistakesOfDrawing(string header, string drawing)
    {
        var texts = Texts(drawing).ToHashSet();
        return Defined(header).Where(pin => !texts.Contains($"{pin.Key} {pin.Value}") && !texts.Contains($"{pin.Value} {pin.Key}"))
            .Select(pin => $"{pin.Key} {pin.Value} is not drawn");
    }

    private static IEnumerable<string> Texts(string drawing) => DrawingText().Matches(drawing).Select(text => text.Groups["text"].Value);

    private static Dictionary<string, string> Defined(string header)
    {
        var pins = new Dictionary<string, string>();
        foreach (Match definition in Definition().Matches(header))
        {
            var signals = Signals[definition.Groups["name"].Value];
            var bits = Bit().Matches(definition.Groups["value"].Value).Select(bit => int.Parse(bit.Groups["bit"].Value)).ToArray();
            if (bits.Length == 0)
                bits = [.. Enumerable.Range(int.Parse(definition.Groups["value"].Value), signals.Length)];
            Assert.Equal(signals.Length, bits.Length);
            foreach (var (bit, signal) in bits.Zip(signals))
                pins.Add($"{definition.Groups["port"].Value}{bit}", signal);
        }

        Assert.Equal(Signals.Values.Sum(signals => signals.Length), pins.Count);
        return pins;
    }

    // The ways that the header's own words give.
    private static Dictionary<string, string> Ways(string header) => HeaderLine().Matches(header)
        .SelectMany(line => line.Groups["pins"].Value.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(pin => (pin, line.Groups["way"].Value)))
        .ToDictionary();

    [GeneratedRegex("^[BCD][0-7]$")]
    private static partial Regex Pin();

    [GeneratedRegex(@"^\| (?<pin>[BCD]\d) \| (?<way>in|out) \| (?<signal>[^|]+?) \|", RegexOptions.Multiline)]
    private static partial Regex PageRow();

    [GeneratedRegex(@"^#define PIN_(?<name>\w+) (?<value>\(?_BV.*?|\d) +/\* port (?<port>[BCD]) \*/", RegexOptions.Multiline)]
    private static partial Regex Definition();

    [GeneratedRegex(@"_BV\((?<bit>\d)\)")]
    private static partial Regex Bit();

    [GeneratedRegex(@"^ \*  (?<pins>(?:[BCD]\d )+) *(?<way>in|out)  ", RegexOptions.Multiline)]
    private static partial Regex HeaderLine();

    [GeneratedRegex("<text[^>]*>(?<text>[^<]*)</text>")]
    private static partial Regex DrawingText();
}
