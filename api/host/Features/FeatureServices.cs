using FuelHistory.Host.Features.Assessments;
using FuelHistory.Host.Features.Charts;
using FuelHistory.Host.Features.Complaints;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Features.Findings;
using FuelHistory.Host.Features.Incidents;
using FuelHistory.Host.Features.Instruments;
using FuelHistory.Host.Features.LayUps;
using FuelHistory.Host.Features.LeakDowns;
using FuelHistory.Host.Features.LeakImports;
using FuelHistory.Host.Features.Limits;
using FuelHistory.Host.Features.LimitsLibrary;
using FuelHistory.Host.Features.Odometers;
using FuelHistory.Host.Features.Records;
using FuelHistory.Host.Features.SetAsides;
using FuelHistory.Host.Features.Settings;
using FuelHistory.Host.Features.Vehicles;
using FuelHistory.Host.Features.Works;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features;

/// <summary>The stores and rules of the features; none holds state but the answer cache and the revisions.</summary>
internal static class FeatureServices
{
    public static void AddFeatures(this IServiceCollection services)
    {
        services.AddSingleton<Cars>().AddSingleton<Entries>();
        services.AddSingleton<VehicleStore>().AddSingleton<OptionRules>().AddSingleton<VehicleRules>();
        services.AddSingleton<OdometerStore>().AddSingleton<OdometerRules>();
        services.AddSingleton<LayUpStore>().AddSingleton<LayUpRules>();
        services.AddSingleton<IncidentStore>().AddSingleton<IncidentRules>();
        services.AddSingleton<WorkStore>().AddSingleton<WorkRules>();
        services.AddSingleton<LimitStore>().AddSingleton<LimitRules>();
        services.AddSingleton<AdoptionRules>();
        services.AddSingleton<InstrumentStore>().AddSingleton<InstrumentRules>();
        services.AddSingleton<ComplaintStore>().AddSingleton<ComplaintRules>();
        services.AddSingleton<FindingStore>().AddSingleton<FindingRules>().AddSingleton<FindingConflicts>();
        services.AddSingleton<SetAsideStore>().AddSingleton<SetAsideRules>();
        services.AddSingleton<SettingsStore>();
        services.AddSingleton<RecordLines>().AddSingleton<Reports>();
        services.AddSingleton<AssessmentInputs>().AddSingleton<AnswerCache>().AddSingleton<ComputingGate>().AddSingleton<AssessedDays>().AddSingleton<Revisions>();
        services.AddSingleton<LeakDownStore>().AddSingleton<LeakReadingStore>().AddSingleton<LeakDownRules>().AddSingleton<LeakReadings>();
        services.AddSingleton<LeakFindings>().AddSingleton<LeakOutlooks>().AddSingleton<LeakDownViews>();
        services.AddSingleton<FaultModelStudies>().AddSingleton<KeptModelStore>().AddSingleton<ModelHistory>();
        services.AddSingleton<TrendChart>();
        services.AddSingleton<LeakImportStore>().AddSingleton<LeakImports.LeakImports>();
        services.AddSingleton<PresentAnswers>().AddSingleton<WhatIfRules>().AddSingleton<WhatIfAnswers>();
    }
}
