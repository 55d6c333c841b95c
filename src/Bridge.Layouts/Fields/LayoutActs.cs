using System.Text.Json;
using static Bridge.Layouts.LayoutRole;

namespace Bridge.Layouts;

/// <summary>What the records of each act may say, and must.</summary>
internal static class LayoutActs
{
    private static readonly LayoutRole[] Place = [X, Y, LayoutRole.Head, LayoutRole.Rise];
    private static readonly LayoutRole[] Direction = [Heading, StepX, SignX, StepY, SignY];
    private static readonly LayoutRole[] Ways = [Way, AlongY, SignX, SignY];

    public static string NameOf(LayoutAct act) => act.ToString().ToLowerInvariant();

    public static string NameOf(LayoutRole role) => JsonNamingPolicy.SnakeCaseLower.ConvertName(role.ToString());

    /// <summary>Every act by its name.</summary>
    public static IReadOnlyDictionary<string, LayoutAct> ByName { get; } = Enum.GetValues<LayoutAct>().ToDictionary(NameOf);

    /// <summary>The roles that an act's records may have.</summary>
    public static IReadOnlyList<LayoutRole> May(LayoutAct act) => act switch
    {
        LayoutAct.End => [],
        LayoutAct.Go or LayoutAct.Dot or LayoutAct.Line => [.. Place, SignX, SignY],
        LayoutAct.Base => [LayoutRole.Head, LayoutRole.Rise],
        LayoutAct.Step => [.. Direction, Count, LayoutRole.Head, LayoutRole.Rise],
        LayoutAct.Row => [.. Place, .. Direction, Count],
        LayoutAct.Patch => [.. Place, .. Ways, SizeX, SizeY],
        LayoutAct.Square => [.. Place, .. Ways, Size],
        LayoutAct.Again => [Reach, Times],
        LayoutAct.Rise => [LayoutRole.Head],
        LayoutAct.Head => [LayoutRole.Head, LayoutRole.Rise],
        LayoutAct.Wait => [Tenths, LayoutRole.Rise],
        _ => [LayoutRole.Rise],
    };

    /// <summary>The roles that an act's records must have.</summary>
    public static IReadOnlyList<LayoutRole> Must(LayoutAct act) => act switch
    {
        LayoutAct.Patch => [SizeX, SizeY],
        LayoutAct.Square => [Size],
        LayoutAct.Again => [Reach],
        LayoutAct.Head => [LayoutRole.Head],
        LayoutAct.Wait => [Tenths],
        _ => [],
    };

    /// <summary>The most bits that a role may have.</summary>
    public static int MostBits(LayoutRole role) => role switch
    {
        X or Y => 13, // 4096 places, and a sign
        SizeX or SizeY or Size => 12,
        Count or Reach or Times or Tenths => 24,
        Heading or Way => 3,
        _ => 1,
    };

    /// <summary>Whether a role counts from the layout's first number.</summary>
    public static bool IsCounted(LayoutRole role) => role is Count or SizeX or SizeY or Size or Reach or Times;
}
