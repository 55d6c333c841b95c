using Microsoft.AspNetCore.Http;

namespace Bridge.Panel;

/// <summary>What each answer tells a browser not to do with it.</summary>
internal static class GuardHeaders
{
    private const string OwnThingsOnly = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; connect-src 'self'; "
        + "base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

    // A report has its own styles and pictures in it, and runs nothing.
    private const string ReportOnly = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; "
        + "frame-ancestors 'none'; sandbox";

    public static void Set(HttpResponse response)
    {
        var headers = response.Headers;
        headers.ContentSecurityPolicy = OwnThingsOnly;
        headers.XContentTypeOptions = "nosniff";
        headers.XFrameOptions = "DENY";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers.CacheControl = "no-store";
    }

    public static void SetForReport(HttpResponse response) => response.Headers.ContentSecurityPolicy = ReportOnly;
}
