using Bridge.Jobs;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;

namespace Bridge.Panel;

/// <summary>What went wrong, as problem details (RFC 9457).</summary>
internal static class Problems
{
    /// <summary>Writes one as the whole answer.</summary>
    public static Task Write(HttpContext context, int status, string title, string detail) => Of(status, title, detail).ExecuteAsync(context);

    /// <summary>One as an answer.</summary>
    public static IResult Of(int status, string title, string detail) => Results.Problem(detail, statusCode: status, title: title);

    /// <summary>What was refused, with its reasons.</summary>
    public static IResult Of(RefusedException refused) => Results.Problem(new ProblemDetails
    {
        Status = StatusCodes.Status422UnprocessableEntity,
        Title = "Refused.",
        Detail = string.Join(" ", refused.Refusals),
        Extensions = { ["refusals"] = refused.Refusals.Select(RefusalView.Of).ToList() },
    });

    /// <summary>It cannot be now.</summary>
    public static IResult NotNow(string why, string what) => Of(StatusCodes.Status409Conflict, why, what);
}
