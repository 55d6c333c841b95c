namespace Board.Emulator;

/// <summary>Programs for the chip, compiled when they are first asked for.</summary>
public static class AvrProgram
{
    private static string Output => Path.Combine(AppContext.BaseDirectory, "avr");

    /// <summary>Compiles one C file and returns the plain binary.</summary>
    public static byte[] Compile(string source)
    {
        var folder = Directory.CreateDirectory(Output).FullName;
        var elf = Path.Combine(folder, Path.ChangeExtension(Path.GetFileName(source), ".elf"));
        var binary = Path.ChangeExtension(elf, ".bin");
        Toolchain.Run("avr-gcc", folder, "-mmcu=atmega328p", "-DF_CPU=16000000UL", "-std=gnu99", "-Os", "-Wall", "-Wextra", "-Werror", "-o", elf, source);
        Toolchain.Run("avr-objcopy", folder, "-O", "binary", elf, binary);
        return File.ReadAllBytes(binary);
    }
}
