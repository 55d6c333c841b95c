using System.Globalization;

namespace Board.Bench;

/// <summary>One figure of the board against its goal: the worst of all trials.</summary>
internal sealed record Figure(string Name, double Worst, string Unit, double Goal, bool IsLeast = false, string Note = "")
{
    public bool IsMet => IsLeast ? Worst >= Goal : Worst <= Goal;

    public override string ToString() => string.Create(CultureInfo.InvariantCulture,
        $"{Name,-46} {Worst,10:0.##} {Unit,-8} goal {(IsLeast ? ">=" : "<=")} {Goal,-8:0.##} {(IsMet ? "pass" : "FAIL")}  {Note}");
}
