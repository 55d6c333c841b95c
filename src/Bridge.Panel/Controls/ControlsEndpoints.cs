using Bridge.Jobs;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Bridge.Panel;

/// <summary>What a page wants with the controls.</summary>
/// <param name="Do">ask, give or refuse.</param>
public sealed record ControlsWish(string? Do);

/// <summary>The handing over of the controls.</summary>
internal static class ControlsEndpoints
{
    public static void MapControls(this IEndpointRouteBuilder api, ControlsDesk controls) => api.MapPost("/controls",
        (HttpContext context, ControlsWish wish) =>
    {
        if (PageFilters.PageOf(context) is not { } page)
            return Problems.Of(StatusCodes.Status400BadRequest, "Which page?", "Bridge-Page names it, letters and digits.");
        switch (wish.Do)
        {
            case "ask":
                return controls.TryAsk(page) ? Results.NoContent() : Problems.NotNow("It cannot be now.", "Another page has asked for them already.");
            case "give":
                return controls.TryGive(page) ? Results.NoContent() : Problems.NotNow("It cannot be now.", "This page does not hold them, or nobody asks.");
            case "refuse":
                controls.Refuse(page);
                return Results.NoContent();
            default:
                throw new RefusedException("do", "something else", "ask, give or refuse", "Give one of these.");
        }
    }).WithSummary("Ask for the controls, give them, or keep them.");
}
