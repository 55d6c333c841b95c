namespace Board.Emulator;

/// <summary>The reference firmware for the ATmega328P, made by its own Makefile once for all tests.</summary>
public static class Firmware
{
    private static readonly Lazy<string> Output = new(Make);

    /// <summary>The plain binary.</summary>
    public static byte[] Binary => File.ReadAllBytes(Path.Combine(Output.Value, "bridge-atmega328p.bin"));

    /// <summary>The program with its symbols.</summary>
    public static string Elf => Path.Combine(Output.Value, "bridge-atmega328p.elf");

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
