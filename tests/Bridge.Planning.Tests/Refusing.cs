using Bridge.Jobs;

namespace Bridge.Planning.Tests;

internal static class Refusing
{
    public static Refusal Of(Action act) => Assert.Throws<RefusedException>(act).Refusals[0];

    public static void IsRefusedAt(string place, Action act) => Assert.Equal(place, Of(act).Place);

    // Whatever bytes come: a shape or a refusal, nothing else.
    public static bool GivesShapeOrRefusal(Func<Shape> read)
    {
        try
        {
            return read().Layers > 0;
        }
        catch (RefusedException refused)
        {
            return refused.Refusals.Count > 0;
        }
    }
}
