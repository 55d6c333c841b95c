using System.Text.RegularExpressions;

namespace Repository.Tests;

/// <summary>The wiring page, its drawing and the firmware's header name the same pins.</summary>
public partial class WiringTests
{
    private const string Header = "firmware-protocol/reference/ports/atmega328p/pins.h";

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

    [Fact]
    public void The_pins_of_the_wiring_page_are_those_of_the_firmware()
    {
        var ofPage = PageRow().Matches(Checkout.Read("safety/WIRING.md"))
            .ToDictionary(row => row.Groups["pin"].Value, row => (row.Groups["way"].Value, row.Groups["signal"].Value));
        Assert.Equal(("in", "serial in"), ofPage["D0"]); // the chip's own serial port has no definition
        Assert.Equal(("out", "serial out"), ofPage["D1"]);
        var defined = Defined();
        Assert.Equal(defined.Keys.Append("D0").Append("D1").Order(StringComparer.Ordinal), ofPage.Keys.Order(StringComparer.Ordinal));
        Assert.All(defined, pin => Assert.Equal(pin.Value, ofPage[pin.Key].Item2));
        Assert.All(Told(), pin => Assert.Equal(pin.Way, ofPage[pin.Pin].Item1));
    }

    [Fact]
    public void The_pins_of_the_drawing_are_those_of_the_firmware()
    {
        var texts = DrawingText().Matches(Checkout.Read("safety/drawings/signals.svg")).Select(text => text.Groups["text"].Value).ToHashSet();
        Assert.All(Defined(), pin => Assert.Contains(texts, text => text == $"{pin.Key} {pin.Value}" || text == $"{pin.Value} {pin.Key}"));
    }

    private static Dictionary<string, string> Defined()
    {
        var pins = new Dictionary<string, string>();
        foreach (Match definition in Definition().Matches(Checkout.Read(Header)))
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
    private static IEnumerable<(string Pin, string Way)> Told() => HeaderLine().Matches(Checkout.Read(Header))
        .SelectMany(line => line.Groups["pins"].Value.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(pin => (pin, line.Groups["way"].Value)));

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
