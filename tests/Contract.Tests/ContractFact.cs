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

/// <summary>Marks the tests of a device that this machine must be able to build.</summary>
[AttributeUsage(AttributeTargets.Class)]
public sealed class NeedsCompilerAttribute : Attribute
{
    internal static string? IsMissing(ITestMethod method) =>
        method.TestClass.Class.GetCustomAttributes(typeof(NeedsCompilerAttribute)).Any() ? NativeCore.IsMissingBecause : null;
}

public sealed class ContractFactDiscoverer(IMessageSink sink) : FactDiscoverer(sink)
{
    protected override IXunitTestCase CreateTestCase(ITestFrameworkDiscoveryOptions discoveryOptions, ITestMethod testMethod, IAttributeInfo factAttribute) =>
        NeedsCompilerAttribute.IsMissing(testMethod) is { } reason
            ? new XunitSkippedDataRowTestCase(DiagnosticMessageSink, discoveryOptions.MethodDisplayOrDefault(),
                discoveryOptions.MethodDisplayOptionsOrDefault(), testMethod, reason)
            : base.CreateTestCase(discoveryOptions, testMethod, factAttribute);
}

public sealed class ContractTheoryDiscoverer(IMessageSink sink) : TheoryDiscoverer(sink)
{
    public override IEnumerable<IXunitTestCase> Discover(
        ITestFrameworkDiscoveryOptions discoveryOptions, ITestMethod testMethod, IAttributeInfo theoryAttribute) =>
        NeedsCompilerAttribute.IsMissing(testMethod) is { } reason
            ? [new XunitSkippedDataRowTestCase(DiagnosticMessageSink, discoveryOptions.MethodDisplayOrDefault(),
                discoveryOptions.MethodDisplayOptionsOrDefault(), testMethod, reason)]
            : base.Discover(discoveryOptions, testMethod, theoryAttribute);
}
