using Bridge.Jobs;
using CsCheck;

namespace Bridge.Station.Tests;

public class StationFileTests
{
    private const string Whole = """
        format = 1
        [contacts]
        estop = 17
        hold = 27
        start = 22
        [lamps]
        red = 5
        blue = 6
        [display]
        columns = 20
        lines = 4
        register_select = 12
        enable = 13
        data = [16, 19, 20, 21]
        """;

    [Fact]
    public void A_file_says_what_is_wired_to_which_pins()
    {
        var wiring = StationFile.Parse(Whole, "desk.toml");
        Assert.Null(wiring.Expander);
        Assert.Equal(new ContactPins(17, 27, 22), wiring.Contacts);
        Assert.Equal([(LampColor.Blue, 6), (LampColor.Red, 5)], wiring.Lamps.Select(lamp => (lamp.Key, lamp.Value)).OrderBy(lamp => $"{lamp.Key}"));
        Assert.Equal((20, 4, 12, 13), (wiring.Display!.Columns, wiring.Display.Lines, wiring.Display.RegisterSelect, wiring.Display.Enable));
        Assert.Equal([5, 6, 12, 13, 16, 17, 19, 20, 21, 22, 27], wiring.Pins.Order());
    }

    [Fact]
    public void An_expander_has_sixteen_pins()
    {
        var wiring = StationFile.Parse("format = 1\n[expander]\ni2c_bus = 1\ni2c_address = 0x21\n[contacts]\nestop = 0\nhold = 1\nstart = 15", "desk.toml");
        Assert.Equal(new ExpanderPlace(1, 0x21), wiring.Expander);
        Refuses("[expander]\ni2c_bus = 1\ni2c_address = 0x21\n[contacts]\nestop = 0\nhold = 1\nstart = 16",
            "desk.toml:8 contacts.start", "16", "a whole number, 0 to 15");
    }

    [Theory]
    [InlineData("estop = 17", "estop = 22", "desk.toml:5 contacts.start", "pin 22, which contacts.estop has", "a pin of its own for each")]
    [InlineData("blue = 6", "blue = 5", "desk.toml:8 lamps.blue", "pin 5, which lamps.red has", "a pin of its own for each")]
    [InlineData("20, 21]", "20, 17]", "desk.toml:14 display.data", "pin 17, which contacts.estop has", "a pin of its own for each")]
    [InlineData("estop = 17\n", "", "desk.toml, contacts.estop", "nothing", "a whole number, 0 to 255")]
    [InlineData("estop = 17", "estop = -1", "desk.toml:3 contacts.estop", "-1", "a whole number, 0 to 255")]
    [InlineData("estop = 17", "estop = \"17\"", "desk.toml:3 contacts.estop", "\"17\"", "a whole number, 0 to 255")]
    [InlineData("estop = 17", "estop = 99999999999", "desk.toml:3 contacts.estop", "99999999999", "a whole number, 0 to 255")]
    [InlineData("19, 20, 21]", "19, 20]", "desk.toml:14 display.data", "[16, 19, 20]", "a list of 4 whole numbers, 0 to 255")]
    [InlineData("columns = 20", "columns = 18", "desk.toml:10 display.columns", "18", "16 or 20")]
    [InlineData("lines = 4", "lines = 3", "desk.toml:11 display.lines", "3", "2 or 4")]
    [InlineData("format = 1", "format = 2", "desk.toml:1 format", "2", "a whole number, 1 to 1")]
    [InlineData("red = 5", "purple = 5", "desk.toml:7 lamps.purple", "a key of this name", "format, expander.i2c_bus")]
    [InlineData("[lamps]", "[bells]", "desk.toml, [bells]", "a table of this name", "expander, contacts, lamps, display")]
    [InlineData("[lamps]", "[contacts]", "desk.toml:6", "", "")]
    [InlineData("[lamps]", "[[lamps]]", "desk.toml:6 lamps", "a list of tables", "one table, [lamps]")]
    [InlineData("hold = 27", "hold = 27\nhold = 28", "desk.toml:5", "", "")]
    [InlineData("hold = 27", "hold = ", "desk.toml:4", "\"hold =\"", "TOML: key = value, [table], or # and a comment; each name once")]
    public void A_mistake_is_named_with_its_place(string good, string bad, string place, string found, string allowed) =>
        Refuses(Whole.Replace("\r", "").Replace(good, bad)["format = 1\n".Length..], place, found, allowed, Whole.Replace(good, bad)[.."format = 1\n".Length]);

    [Fact]
    public void No_damage_brings_anything_but_a_refusal() => Gen.Select(
        Gen.Int[0, Whole.Length - 1], Gen.Char[' ', '~'], Gen.Int[0, Whole.Length]).Sample((at, letter, length) =>
    {
        foreach (var damaged in (string[])[Whole[..length], Whole[..at] + letter + Whole[(at + 1)..], Whole[..at] + letter + Whole[at..]])
            try
            {
                var pins = StationFile.Parse(damaged, "desk.toml").Pins.ToList();
                Assert.Equal(pins.Distinct(), pins);
            }
            catch (RefusedException)
            {
                // That is what it is for.
            }
    }, seed: "0000station1", iter: 2000);

    private static void Refuses(string text, string place, string found, string allowed, string format = "format = 1\n")
    {
        var refusal = Assert.Single(Assert.Throws<RefusedException>(() => StationFile.Parse(format + text, "desk.toml")).Refusals);
        Assert.StartsWith(place, refusal.Place);
        Assert.Contains(found, refusal.Found);
        Assert.StartsWith(allowed, refusal.Allowed);
    }
}
