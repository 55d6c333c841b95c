using System.Buffers.Binary;
using System.Globalization;

namespace Board.Emulator;

/// <summary>The reference firmware for the ATmega328P, made by its own Makefile once for all tests.</summary>
public static class Firmware
{
    private static readonly Lazy<string> Output = new(Make);
    private static readonly Lazy<string[]> Symbols = new(() => Toolchain.Run("avr-nm", Output.Value, "bridge-atmega328p.elf").Split('\n'));
    private static readonly Lazy<int> Offset = new(FindOffset);

    private static string Ports => Path.Combine(FindRoot(), "firmware-protocol", "reference", "ports");

    /// <summary>The plain binary.</summary>
    public static byte[] Binary => File.ReadAllBytes(Path.Combine(Output.Value, "bridge-atmega328p.bin"));

    /// <summary>Octets of RAM that are taken before the stack begins.</summary>
    public static int StaticMemory
    {
        get
        {
            const int firstOfMemory = 0x0100;
            return AddressOf("_end") - firstOfMemory;
        }
    }

    /// <summary>Where its port's struct has the function that is told of worked cells.</summary>
    public static int WorkedOffset => Offset.Value;

    /// <summary>Where something of the program's is in data space.</summary>
    public static int AddressOf(string name)
    {
        const int dataSpace = 0x800000; // where the tool chain puts it
        var line = Symbols.Value.Single(symbol => symbol.EndsWith($" {name}", StringComparison.Ordinal));
        return int.Parse(line.AsSpan(0, 8), NumberStyles.HexNumber, CultureInfo.InvariantCulture) - dataSpace;
    }

    private static string Make()
    {
        var output = Directory.CreateDirectory(Path.Combine(AppContext.BaseDirectory, "firmware")).FullName;
        Toolchain.Run("make", Path.Combine(Ports, "atmega328p"), "--silent", "mcu", $"OUT={output}");
        return output;
    }

    private static int FindOffset()
    {
        var source = Path.Combine(FindRoot(), "tests", "Board.Emulator", "Programs", "worked-offset.c");
        Toolchain.Run("avr-gcc", Output.Value, "-mmcu=atmega328p", "-std=gnu99", "-Os", "-fshort-enums", $"-I{Ports}", "-c", "-o", "worked-offset.o", source);
        Toolchain.Run("avr-objcopy", Output.Value, "-O", "binary", "-j", ".rodata", "worked-offset.o", "worked-offset.bin");
        return BinaryPrimitives.ReadUInt16LittleEndian(File.ReadAllBytes(Path.Combine(Output.Value, "worked-offset.bin")));
    }

    private static string FindRoot()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Bridge.sln")))
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("Tests run from within the repository.");
        return folder;
    }
}
