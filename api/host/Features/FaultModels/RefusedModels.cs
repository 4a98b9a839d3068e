namespace FuelHistory.Host.Features.FaultModels;

/// <summary>What of the user's own fault models cannot be used, once, for whoever reads the log.</summary>
internal static class RefusedModels
{
    public static void Log(FaultModelFolder models, ILogger log)
    {
        foreach (var refused in models.Refused)
        {
            log.LogWarning("The fault model {File} is not used: {Reasons}", refused.File, string.Join(" | ", refused.Reasons));
        }
    }
}
