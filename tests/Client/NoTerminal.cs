using System.Runtime.CompilerServices;

namespace FuelHistory.Tests.Client;

/// <summary>The toolkit must not touch the terminal that runs the tests.</summary>
internal static class NoTerminal
{
#pragma warning disable CA2255 // the variable has to be set before any test makes the toolkit
    [ModuleInitializer]
    internal static void Set() => Environment.SetEnvironmentVariable("DisableRealDriverIO", "1");
#pragma warning restore CA2255
}
