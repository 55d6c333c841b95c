using System.Globalization;

namespace Board.Emulator;

/// <summary>The reference firmware for the ATmega328P, made by its own Makefile once for all tests.</summary>
public static class Firmware
{
    private static readonly Lazy<string> Output = new(Make);

    /// <summary>The plain binary.</summary>
    public static byte[] Binary => File.ReadAllBytes(Path.Combine(Output.Value, "bridge-atmega328p.bin"));

    /// <summary>Octets of RAM that are taken before the stack begins.</summary>
    public static int StaticMemory
    {
        get
        {
            const int firstOfMemory = 0x800100; // the tool chain's address of SRAM
            var symbols = Toolchain.Run("avr-nm", Output.Value, "bridge-atmega328p.elf").Split('\n');
            var end = symbols.Single(line => line.EndsWith(" _end", StringComparison.Ordinal));
            return int.Parse(end.AsSpan(0, 8), NumberStyles.HexNumber, CultureInfo.InvariantCulture) - firstOfMemory;
        }
    }

    private static string Make()
    {
        var output = Directory.CreateDirectory(Path.Combine(AppContext.BaseDirectory, "firmware")).FullName;
        var port = Path.Combine(FindRoot(), "firmware-protocol", "reference", "ports", "atmega328p");
        Toolchain.Run("make", port, "--silent", "mcu", $"OUT={output}");
        return output;
    }

    private static string FindRoot()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Bridge.sln")))
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("Tests run from within the repository.");
        return folder;
    }
}
