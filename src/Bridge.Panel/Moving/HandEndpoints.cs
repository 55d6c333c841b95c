using Bridge.Jobs;
using Bridge.Wire;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Bridge.Panel;

/// <summary>Leave to move.</summary>
/// <param name="Axis">x, y or z.</param>
/// <param name="Up">Whether towards greater cells.</param>
public sealed record MoveWish(string? Axis, bool Up);

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
        api.MapPost("/hand/jog", (MoveWish wish) =>
        {
            var axis = wish.Axis switch
            {
                "x" => AxisName.X,
                "y" => AxisName.Y,
                "z" => AxisName.Z,
                _ => throw new RefusedException("axis", wish.Axis is { Length: <= 20 } name ? name : "none", "x, y or z", "Give one of these."),
            };
            return hand.TryMove(axis, wish.Up) is { } why ? Problems.NotNow("It does not move.", why) : Results.NoContent();
        }).HeldOnly().WithSummary("Leave to move an axis for 150 ms; said again while a key is held.");
        api.MapPost("/hand/rest", () =>
        {
            hand.Rest();
            return Results.NoContent();
        }).WithSummary("The key was let go.");
    }
}
