using System.Reflection;
using System.Runtime.InteropServices;

namespace Contract.Tests;

/// <summary>Builds the firmware's core for this machine, once, and loads it.</summary>
internal static class NativeCore
{
    private static readonly Lazy<nint> Handle = new(() =>
        NativeLibrary.Load(NativeMake.Build(NativeMake.Reference, NativeMake.OwnFolder, "libbridge_native.so")));
    private static readonly Lazy<bool> IsResolved = new(Resolve);

    /// <summary>Makes the calls usable.</summary>
    public static void Load() => Assert.True(IsResolved.Value);

    private static bool Resolve()
    {
        NativeLibrary.SetDllImportResolver(Assembly.GetExecutingAssembly(), (name, _, _) => name == NativeCalls.Library ? Handle.Value : 0);
        return true;
    }
}
