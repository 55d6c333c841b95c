using Bridge.Jobs;
using Bridge.Wire;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Bridge.Panel;

/// <summary>Leave to move.</summary>
/// <param name="Axis">x, y or z.</param>
/// <param name="Up">Whether towards greater cells.</param>
/// <param name="Hold">The number of the hold of a key or button; a later hold of the same page has a greater one.</param>
public sealed record MoveWish(string? Axis, bool Up, long? Hold);

/// <summary>The key or button was let go.</summary>
/// <param name="Hold">The number of the hold that is over.</param>
public sealed record RestWish(long? Hold);

/// <summary>What is asked of the machine by hand.</summary>
internal static class HandEndpoints
{
    public static void MapHand(this IEndpointRouteBuilder api, HandDesk hand, ControlsDesk controls)
    {
        api.MapPost("/hand/command", async (HttpContext context, HandWish wish) =>
        {
            MachineCommand? command = wish.Command is "Connect" or "Leave" ? null
                : RunEndpoints.Named(wish.Command, MachineCommand.Clear, MachineCommand.Reset, MachineCommand.Stop, MachineCommand.Abort);
            if (!RunEndpoints.MayAsk(context, controls, command ?? MachineCommand.Undefined))
                return Problems.NotNow("Another page holds the controls.", "Ask it for them. Stop and Abort are for every page.");
            if (command is { } given)
                return hand.TryCommand(given) ? Results.Accepted()
                    : Problems.NotNow("It cannot be now.", "Connect first; or the machine is being brought to rest, or too much waits: give it again then.");
            if (wish.Command == "Connect")
                return RunEndpoints.Answer(await hand.TryConnectAsync(wish).ConfigureAwait(false));
            await hand.LeaveAsync().ConfigureAwait(false);
            return Results.Accepted();
        }).WithSummary("Without a run: Connect, Clear, Reset, Stop, Abort or Leave. Stop and Abort may be asked by every page.");
        api.MapPost("/hand/jog", (HttpContext context, MoveWish wish) =>
        {
            var axis = wish.Axis switch
            {
                "x" => AxisName.X,
                "y" => AxisName.Y,
                "z" => AxisName.Z,
                _ => throw new RefusedException("axis", wish.Axis is { Length: <= 20 } name ? name : "none", "x, y or z", "Give one of these."),
            };
            if (wish.Hold is not { } hold)
                throw new RefusedException("hold", "none", "the number of the hold", "Give the same one while a key is held, and a greater one for the next.");
            return hand.TryMove(PageFilters.PageOf(context)!, hold, axis, wish.Up) is { } why ? Problems.NotNow("It does not move.", why) : Results.NoContent();
        }).HeldOnly().WithSummary("Leave to move an axis for 150 ms; said again while a key is held.");
        api.MapPost("/hand/rest", (HttpContext context, RestWish? wish) =>
        {
            hand.Rest(PageFilters.PageOf(context) is { } page && controls.IsHeldBy(page) ? page : null, wish?.Hold);
            return Results.NoContent();
        }).WithSummary("The key was let go.");
    }
}
