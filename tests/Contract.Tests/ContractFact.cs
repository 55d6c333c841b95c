using System.Reflection;
using Xunit.Abstractions;
using Xunit.Sdk;

namespace Contract.Tests;

/// <summary>A test of a contract; skipped, with a word, where the device of its class cannot be made.</summary>
[XunitTestCaseDiscoverer("Contract.Tests.ContractFactDiscoverer", "Contract.Tests")]
[AttributeUsage(AttributeTargets.Method)]
public sealed class ContractFactAttribute : FactAttribute;

/// <summary>A test of a contract with data; skipped, with a word, where the device of its class cannot be made.</summary>
[XunitTestCaseDiscoverer("Contract.Tests.ContractTheoryDiscoverer", "Contract.Tests")]
[AttributeUsage(AttributeTargets.Method)]
public sealed class ContractTheoryAttribute : TheoryAttribute;

/// <summary>Rows of a member, as MemberData has them; of the emulated board only each third, since it takes seconds where the others take none.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class ManyRowsAttribute(string member) : DataAttribute
{
    private const int Stride = 3;

    public override IEnumerable<object[]> GetData(MethodInfo testMethod)
    {
        var rows = new MemberDataAttribute(member).GetData(testMethod);
        return testMethod.ReflectedType!.IsDefined(typeof(NeedsEmulatorAttribute)) ? rows.Where((_, index) => index % Stride == 0) : rows;
    }
}

/// <summary>Marks the tests of a device that not every machine can make.</summary>
[AttributeUsage(AttributeTargets.Class)]
public abstract class NeedsAttribute : Attribute
{
    /// <summary>Why it cannot be made here; null where it can.</summary>
    public abstract string? MissingBecause { get; }

    internal static string? IsMissing(ITestMethod method) => method.TestClass.Class.ToRuntimeType().GetCustomAttributes(typeof(NeedsAttribute), inherit: true)
        .OfType<NeedsAttribute>().Select(needs => needs.MissingBecause).FirstOrDefault(reason => reason is not null);
}

/// <summary>Marks the tests of the native core.</summary>
public sealed class NeedsCompilerAttribute : NeedsAttribute
{
    public override string? MissingBecause => NativeMake.IsMissingBecause;
}

/// <summary>Marks the tests of the emulated board.</summary>
public sealed class NeedsEmulatorAttribute : NeedsAttribute
{
    public override string? MissingBecause => Board.Emulator.Toolchain.Missing;
}

public sealed class ContractFactDiscoverer(IMessageSink sink) : FactDiscoverer(sink)
{
    protected override IXunitTestCase CreateTestCase(ITestFrameworkDiscoveryOptions discoveryOptions, ITestMethod testMethod, IAttributeInfo factAttribute) =>
        NeedsAttribute.IsMissing(testMethod) is { } reason
            ? new XunitSkippedDataRowTestCase(DiagnosticMessageSink, discoveryOptions.MethodDisplayOrDefault(),
                discoveryOptions.MethodDisplayOptionsOrDefault(), testMethod, reason)
            : base.CreateTestCase(discoveryOptions, testMethod, factAttribute);
}

public sealed class ContractTheoryDiscoverer(IMessageSink sink) : TheoryDiscoverer(sink)
{
    public override IEnumerable<IXunitTestCase> Discover(
        ITestFrameworkDiscoveryOptions discoveryOptions, ITestMethod testMethod, IAttributeInfo theoryAttribute) =>
        NeedsAttribute.IsMissing(testMethod) is { } reason
            ? [new XunitSkippedDataRowTestCase(DiagnosticMessageSink, discoveryOptions.MethodDisplayOrDefault(),
                discoveryOptions.MethodDisplayOptionsOrDefault(), testMethod, reason)]
            : base.Discover(discoveryOptions, testMethod, theoryAttribute);
}
