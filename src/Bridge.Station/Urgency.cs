using System.Runtime.InteropServices;

namespace Bridge.Station;

/// <summary>Has the system let a thread run before all ordinary ones, as soon as it has something to do. The thread must rest nearly all the time.</summary>
internal static partial class Urgency
{
    // sched.h of Linux: the policy "round robin", and the least of its priorities, still before all threads without one.
    private const int RoundRobin = 2;
    private const int LeastPriority = 1;

    /// <summary>Asks it for the calling thread; false where the system has no such thing or this user has no right to it.</summary>
    public static bool TryRaise() =>
        OperatingSystem.IsLinux() && SetPolicy(ThisThread(), RoundRobin, LeastPriority) == 0;

    [LibraryImport("libc", EntryPoint = "pthread_self")]
    private static partial nuint ThisThread();

    [LibraryImport("libc", EntryPoint = "pthread_setschedparam")]
    private static partial int SetPolicy(nuint thread, int policy, in int priority);
}
