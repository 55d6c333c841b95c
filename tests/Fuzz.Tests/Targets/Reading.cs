using System.Diagnostics.CodeAnalysis;
using Bridge.Jobs;

namespace Fuzz.Tests;

/// <summary>Reading that ends in a value or in a refusal: the place, what was found, what is allowed, what to do.</summary>
internal static class Reading
{
    public static bool IsRead<T>(Func<T> read, string place, [NotNullWhen(true)] out T? value)
        where T : class
    {
        value = null;
        try
        {
            value = read();
            return true;
        }
        catch (RefusedException refused)
        {
            Assert.NotEmpty(refused.Refusals);
            Assert.All(refused.Refusals, refusal =>
            {
                Assert.StartsWith(place, refusal.Place, StringComparison.Ordinal);
                Assert.True(refusal.Found.Length > 0 && refusal.Allowed.Length > 0 && refusal.Action.Length > 0, refusal.ToString());
                Assert.DoesNotContain(refusal.ToString(), char.IsControl);
            });
            return false;
        }
    }
}
