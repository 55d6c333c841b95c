using System.Text;
using Bridge.Jobs;

namespace Bridge.Station;

/// <summary>Reads a station file: one TOML page (format 1) that says what is wired to which pins.</summary>
public static class StationFile
{
    /// <summary>The format that this program reads.</summary>
    public const int Format = 1;

    /// <summary>Largest station file in bytes: 16 KiB.</summary>
    public const int MostBytes = 16 * 1024;

    private const int LastPin = 255;
    private const int LastExpanderPin = 15;

    private static readonly string[] Colors = [.. Enum.GetNames<LampColor>().Select(color => color.ToLowerInvariant())];

    private static readonly string[] Tables = ["expander", "contacts", "lamps", "display"];

    private static readonly string[] Keys =
    [
        "format", "expander.i2c_bus", "expander.i2c_address", "contacts.estop", "contacts.hold", "contacts.start", .. Colors.Select(color => $"lamps.{color}"),
        "display.columns", "display.lines", "display.register_select", "display.enable", "display.data",
    ];

    /// <summary>Reads the file at a path.</summary>
    /// <exception cref="RefusedException">It cannot be read, or is none.</exception>
    public static StationWiring Read(string path)
    {
        try
        {
            return Parse(new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(InputFile.ReadAll(path, MostBytes)).TrimStart('\uFEFF'), path);
        }
        catch (DecoderFallbackException)
        {
            throw new RefusedException(path, "octets that are no text", "UTF-8 text", "Save it as UTF-8; nothing was started.");
        }
    }

    /// <summary>Reads the text of a station file.</summary>
    /// <exception cref="RefusedException">It is none.</exception>
    public static StationWiring Parse(string text, string name)
    {
        var keys = new StationKeys(text, name);
        keys.RefuseOthers(Tables, Keys);
        keys.Whole("", "format", Format, Format);
        var expander = keys.Has("expander")
            ? new ExpanderPlace(keys.Whole("expander", "i2c_bus", 0, 255), keys.Whole("expander", "i2c_address", 0x20, 0x27))
            : null;
        var pins = new PinList(keys, expander is null ? LastPin : LastExpanderPin);
        var contacts = new ContactPins(pins.Take("contacts", "estop"), pins.Take("contacts", "hold"), pins.Take("contacts", "start"));
        var lamps = Colors.Where(color => keys.Has("lamps", color))
            .ToDictionary(color => Enum.Parse<LampColor>(color, ignoreCase: true), color => pins.Take("lamps", color));
        return new StationWiring(expander, contacts, lamps, keys.Has("display") ? Display(keys, pins) : null);
    }

    private static DisplayPins Display(StationKeys keys, PinList pins)
    {
        var (columns, lines) = (keys.Whole("display", "columns", 16, 20), keys.Whole("display", "lines", 2, 4));
        if (columns is not (16 or 20))
            throw keys.Refused("display", "columns", $"{columns}", "16 or 20");
        if (lines is not (2 or 4))
            throw keys.Refused("display", "lines", $"{lines}", "2 or 4");
        return new DisplayPins(columns, lines, pins.Take("display", "register_select"), pins.Take("display", "enable"), pins.Take("display", "data", 4));
    }

    /// <summary>Pins as they are taken, none twice.</summary>
    private sealed class PinList(StationKeys keys, int last)
    {
        private readonly Dictionary<int, string> _taken = [];

        public int Take(string table, string key) => Once(keys.Whole(table, key, 0, last), table, key);

        public IReadOnlyList<int> Take(string table, string key, int count) =>
            [.. keys.Wholes(table, key, count, 0, last).Select(pin => Once(pin, table, key))];

        private int Once(int pin, string table, string key)
        {
            if (!_taken.TryAdd(pin, $"{table}.{key}"))
                throw keys.Refused(table, key, $"pin {pin}, which {_taken[pin]} has", "a pin of its own for each");
            return pin;
        }
    }
}
