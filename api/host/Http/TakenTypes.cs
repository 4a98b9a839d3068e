using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.AspNetCore.Routing.Template;

namespace FuelHistory.Host.Http;

/// <summary>In which media types an address takes its body. The routing, refusing another, no longer says which end point it meant.</summary>
internal static class TakenTypes
{
    public static string At(HttpContext context)
    {
        var accepts = context.RequestServices.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Where(e => e.Metadata.GetMetadata<IHttpMethodMetadata>()?.HttpMethods.Contains(context.Request.Method) == true && Matches(e, context.Request.Path))
            .Select(e => e.Metadata.GetMetadata<IAcceptsMetadata>()).FirstOrDefault(a => a is not null);
        return accepts is null ? "application/json" : string.Join(" or ", accepts.ContentTypes);
    }

    private static bool Matches(RouteEndpoint endpoint, PathString path) =>
        new TemplateMatcher(TemplateParser.Parse(endpoint.RoutePattern.RawText ?? ""), []).TryMatch(path, []);
}
