using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;

namespace Bridge.Panel;

/// <summary>
/// Lets through what may ask: by the program's own name and from its own page, with the key, changing nothing by GET. Against pages of others that
/// use the person's browser (forged requests, and names that are bound to this computer's address).
/// </summary>
internal sealed class RequestGuard(RequestDelegate next, PanelKey key, Func<PanelAddress> at)
{
    private const string Bearer = "Bearer ";
    private const int MostBodyBytes = 64 << 10; // of all but a shape

    public Task InvokeAsync(HttpContext context)
    {
        var (request, address) = (context.Request, at());
        GuardHeaders.Set(context.Response);
        if (!address.IsHost(request.Host.Value))
            return Problems.Write(context, StatusCodes.Status421MisdirectedRequest, "Another host was asked for.",
                $"This is {address.Authority}: open the address that the program printed.");
        if (request.Headers.Origin.Count > 0 && !address.IsOrigin(request.Headers.Origin.ToString()))
            return Problems.Write(context, StatusCodes.Status403Forbidden, "Another page asked.", "Only the panel's own page may ask.");
        if (request.Path != Paths.Job && context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } bound)
            bound.MaxRequestBodySize = MostBodyBytes;
        if (!IsApi(request.Path) || request.Path == Paths.Enter)
            return next(context);
        return key.Is(KeyOf(request))
            ? next(context)
            : Problems.Write(context, StatusCodes.Status401Unauthorized, "No key, or an old one.", address.IsOpen
                ? "Give the pass phrase again."
                : "Open the address that the program printed when it started; each start has a new key.");
    }

    private static bool IsApi(PathString path) => path.StartsWithSegments(Paths.Api);

    private static string? KeyOf(HttpRequest request) =>
        request.Headers.Authorization.ToString() is var given && given.StartsWith(Bearer, StringComparison.Ordinal) ? given[Bearer.Length..] : null;
}
