using Board.Emulator;

namespace Board.Bench;

/// <summary>What the program takes of the controller.</summary>
internal static class ProgramSize
{
    private const double FlashGoal = 24 * 1024;
    private const double MemoryGoal = 1400;

    public static IEnumerable<Figure> Measure()
    {
        yield return new Figure("flash", Firmware.Binary.Length, "octets", FlashGoal);
        yield return new Figure("static RAM", Firmware.StaticMemory, "octets", MemoryGoal);
    }
}
