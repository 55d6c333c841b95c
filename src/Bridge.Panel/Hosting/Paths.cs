namespace Bridge.Panel;

/// <summary>The paths that are written more than once.</summary>
internal static class Paths
{
    public const string Api = "/api";
    public const string Job = "/api/job";
    public const string Enter = "/api/enter";
    public const string Reports = "/reports";
}
