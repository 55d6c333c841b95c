using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;

namespace Bridge.Panel;

/// <summary>Which page asks, and what only the page that holds the controls may ask.</summary>
internal static class PageFilters
{
    private const string Header = "Bridge-Page";
    private const int Longest = 64;

    /// <summary>The number of the page that asks; null where it tells none, or none that is good.</summary>
    public static string? PageOf(HttpContext context) =>
        context.Request.Headers[Header].ToString() is { Length: > 0 and <= Longest } page && page.All(char.IsAsciiLetterOrDigit) ? page : null;

    /// <summary>Lets only the page that holds the controls ask.</summary>
    public static RouteHandlerBuilder HeldOnly(this RouteHandlerBuilder route) => route.AddEndpointFilter(async (context, next) =>
        PageOf(context.HttpContext) is { } page && ((ControlsDesk)context.HttpContext.RequestServices.GetService(typeof(ControlsDesk))!).IsHeldBy(page)
            ? await next(context).ConfigureAwait(false)
            : Problems.NotNow("Another page holds the controls.", "Ask it for them. Hold, Stop and Abort are for every page."));
}
